# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Changes one value in the text of a circuit file and leaves every other byte as it is."""

import json
from collections.abc import Mapping

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.contradictions import quantity_text
from firmlever.domain.fault import Path
from firmlever.domain.quantities import BIKE, LINE, SCREW, keys_of
from firmlever.domain.quantity import Quantity
from firmlever.errors import NotWrittenError, UnknownNameError
from firmlever.store.circuit_file.locate import Layout, Span, locate

SCREW_MARK = "screw:"

Given = Mapping[str, Quantity]


def with_quantity(file: str, text: str, bike: Bike, key: str, value: Quantity) -> str:
    """Return the text with one quantity changed or put in.

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
    table, name, given = _address(bike, key)
    if given.get(name) == value:
        return text
    layout, path, written = locate(text), (*table, name), quantity_text(value)
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


def _address(bike: Bike, key: str) -> tuple[Path, str, Given]:
    """Return the path of a table, the key in it, and the quantities that it gives."""
    steps = key.split("/")
    if len(steps) == 2 and steps[0] == BIKE:
        return ("bike",), _known("quantity of the machine", steps[1], keys_of(BIKE)), bike.given
    if len(steps) != 3:
        raise UnknownNameError("quantity", key, ("bike/KEY", "CIRCUIT/PART/KEY"))
    names = [circuit.name for circuit in bike.circuits]
    index = names.index(_known("circuit", steps[0], names))
    inside, kind, given = _table_in(bike.circuits[index], steps[1])
    name = _known(f"quantity of a {kind}", steps[2], keys_of(kind))
    return ("circuit", index, *inside), name, given


def _table_in(circuit: Circuit, name: str) -> tuple[Path, str, Given]:
    if name.startswith(SCREW_MARK):
        return _screw_in(circuit, name.removeprefix(SCREW_MARK))
    if ">" in name:
        ends = [f"{line.start} > {line.end}" for line in circuit.lines]
        index = ends.index(_known("line", name, ends))
        return ("line", index), LINE, circuit.lines[index].given
    ids = [part.id for part in circuit.parts]
    index = ids.index(_known("part", name, ids))
    return ("part", index), circuit.parts[index].kind.value, circuit.parts[index].given


def _screw_in(circuit: Circuit, name: str) -> tuple[Path, str, Given]:
    places: dict[str, tuple[Path, str, Given]] = {
        screw.id: (("part", index, "screw", number), SCREW, screw.given)
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
