# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Changes values in the text of a circuit file and leaves every other byte as it is."""

import json
from typing import Any

from firmlever.domain.circuit import Bike, Circuit, PartKind
from firmlever.domain.contradictions import quantity_text
from firmlever.domain.fault import Path
from firmlever.domain.quantities import BIKE, LINE, SCREW, keys_of
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.errors import NotWrittenError, UnknownNameError
from firmlever.store.circuit_file.locate import Layout, Span, locate
from firmlever.store.circuit_file.parse import parse

SCREW_MARK = "screw:"
PISTONS = "pistons_mm"

Value = Quantity | tuple[float, ...] | None


def with_value(file: str, text: str, bike: Bike, key: str, value: Value) -> str:
    """Return the text with one value changed, put in, or taken out where it is None.

    ``key`` is ``bike/mass_kg``, ``front/master/bore_mm`` for a part,
    ``front/master > abs unit/length_mm`` for a line, or
    ``front/screw:left caliper/hex_mm`` for a screw.

    Raises
    ------
    UnknownNameError
        When the machine has no such thing.
    NotWrittenError
        When the value is spread over several lines and only a hand can change it.
    """
    table, name = _address(bike, key)
    path = (*table, name)
    if _found(parse(file, text), path) == _raw(value):
        return text
    layout = locate(text)
    if value is None:
        return _without(file, text, layout, path)
    written = _written(value)
    if path in layout.values:
        return _replaced(text, layout.values[path], written)
    if path not in layout.lines and table in layout.last_entry:
        return _after(text, layout.last_entry[table], f"{name} = {written}")
    if path not in layout.lines and table in layout.values:
        return _into_braces(text, layout.values[table], f"{name} = {written}")
    raise NotWrittenError(file, _by_hand(layout, path))


def with_name(text: str, name: str) -> str:
    """Return the text with the machine's name changed."""
    span = locate(text).values["bike", "name"]
    return _replaced(text, span, json.dumps(name, ensure_ascii=False))


def _by_hand(layout: Layout, path: Path) -> str:
    line = layout.line_of(path)
    return f"{path[-1]} is written in a way only a hand can change, near line {line}"


def _written(value: Quantity | tuple[float, ...]) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(quantity_text(Exact(size)) for size in value)}]"
    return quantity_text(value)


def _raw(value: Value) -> object:
    """Return what the parser makes of a value."""
    match value:
        case Exact(number):
            return number
        case Between(low, high):
            return {"low": low, "high": high}
        case tuple():
            return list(value)
        case None:
            return None


def _found(here: Any, path: Path) -> object:  # noqa: ANN401
    for step in path[:-1]:
        here = here[step]
    return here.get(path[-1])


def _without(file: str, text: str, layout: Layout, path: Path) -> str:
    """Take an entry out with its line; a comment behind it stays."""
    if path not in layout.values:
        raise NotWrittenError(file, _by_hand(layout, path))
    span = layout.values[path]
    table = layout.values.get(path[:-1])
    if table is not None:
        return _out_of_braces(text, table, layout.entries[path])
    start, end = _whole_line(text, span)
    behind = text[span.end : end].strip()
    if not behind:
        return text[:start] + text[end:]
    entry = text[start : span.start]
    indent = entry[: len(entry) - len(entry.lstrip())]
    return text[:start] + indent + text[span.end :].lstrip(" \t")


def _whole_line(text: str, span: Span) -> tuple[int, int]:
    """Return where the line of an entry starts and where the next one does."""
    end = text.find("\n", span.end)
    return text.rfind("\n", 0, span.start) + 1, len(text) if end == -1 else end + 1


def _address(bike: Bike, key: str) -> tuple[Path, str]:
    """Return the path of a table and the key in it."""
    steps = key.split("/")
    if len(steps) == 2 and steps[0] == BIKE:
        return ("bike",), _known("quantity of the machine", steps[1], keys_of(BIKE))
    if len(steps) != 3:
        raise UnknownNameError("quantity", key, ("bike/KEY", "CIRCUIT/PART/KEY"))
    names = [circuit.name for circuit in bike.circuits]
    index = names.index(_known("circuit", steps[0], names))
    inside, kind = _table_in(bike.circuits[index], steps[1])
    name = _known(f"quantity of a {kind}", steps[2], _keys(kind))
    return ("circuit", index, *inside), name


def _keys(kind: str) -> tuple[str, ...]:
    has_pistons = kind in (PartKind.CALIPER, PartKind.SLAVE)
    return (*keys_of(kind), PISTONS) if has_pistons else keys_of(kind)


def _table_in(circuit: Circuit, name: str) -> tuple[Path, str]:
    if name.startswith(SCREW_MARK):
        return _screw_in(circuit, name.removeprefix(SCREW_MARK)), SCREW
    if ">" in name:
        ends = [f"{line.start} > {line.end}" for line in circuit.lines]
        return ("line", ends.index(_known("line", name, ends))), LINE
    ids = [part.id for part in circuit.parts]
    index = ids.index(_known("part", name, ids))
    return ("part", index), circuit.parts[index].kind.value


def _screw_in(circuit: Circuit, name: str) -> Path:
    places: dict[str, Path] = {
        screw.id: ("part", index, "screw", number)
        for index, part in enumerate(circuit.parts)
        for number, screw in enumerate(part.screws)
    }
    return places[_known("screw", name, list(places))]


def _known(what: str, asked: str, known: list[str] | tuple[str, ...]) -> str:
    if asked not in known:
        raise UnknownNameError(what, asked, known)
    return asked


def _replaced(text: str, span: Span, written: str) -> str:
    return text[: span.start] + written + text[span.end :]


def _after(text: str, span: Span, entry: str) -> str:
    """Put a line behind the one where a span ends, with the same indent and line end."""
    line_start = text.rfind("\n", 0, span.start) + 1
    indent = text[line_start : span.start].replace("\ufeff", "")
    line_end = text.find("\n", span.end)
    if line_end == -1:
        return f"{text}\n{indent}{entry}"
    newline = "\r\n" if text[line_end - 1] == "\r" else "\n"
    return f"{text[: line_end + 1]}{indent}{entry}{newline}{text[line_end + 1 :]}"


def _into_braces(text: str, span: Span, entry: str) -> str:
    inside = text[span.start + 1 : span.end - 1].rstrip()
    joint = "," if inside else ""
    return _replaced(text, span, f"{{{inside}{joint} {entry} }}")


def _out_of_braces(text: str, table: Span, entry: Span) -> str:
    """Take an entry out of braces with the comma that parts it from its neighbour."""
    before = text[table.start : entry.start].rstrip()
    behind = text[entry.end : table.end].lstrip()
    if behind.startswith(","):
        behind = behind[1:].lstrip()
    elif before.endswith(","):
        before = before[:-1].rstrip()
    return f"{text[: table.start]}{before} {behind}{text[table.end :]}"
