# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Puts what the models refuse into our words, and faults into lines of the file."""

import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from firmlever.domain.circuit import PartKind
from firmlever.domain.fault import Fault, Path
from firmlever.domain.graph import nearest
from firmlever.errors import BeyondToolError, CircuitFileError, InputError, Problem
from firmlever.store.circuit_file import models
from firmlever.store.circuit_file.locate import locate
from firmlever.store.circuit_file.rules import Said
from firmlever.store.circuit_file.words import place_of, shown

MOST_SHOWN = 100
MOST_WORDED = 500
RESERVED: dict[Path, tuple[str, ...]] = {(): ("disc",), ("bike",): ("geometry", "made")}
POWER_KINDS = ("accumulator", "booster", "power unit", "pump", "servo")

_TABLES: dict[str, type[BaseModel]] = {
    "bike": models.Bike,
    "circuit": models.CircuitTable,
    "fluid": models.FluidTable,
    "line": models.Line,
    "screw": models.Screw,
    "sequence": models.StepTable,
}
_HEADINGS = {
    "bike": "[bike]",
    "circuit": "[[circuit]]",
    "fluid": "fluid = { ... }",
    "line": "[[circuit.line]]",
    "part": "[[circuit.part]]",
    "screw": "[[circuit.part.screw]]",
    "sequence": "[[sequence]]",
}


def faults_of(errors: Iterable[ErrorDetails]) -> Iterator[Fault]:
    """Yield what the models refuse, in our words.

    A type of error that is not in the table of words cannot occur with our models;
    a test walks them.
    """
    for error in itertools.islice(errors, MOST_WORDED):
        at, tag = _without_tag(error["loc"])
        yield from _WORDS[error["type"]](at, tag, error)


def refusal(file: str, text: str, raw: object, faults: Sequence[Fault]) -> InputError:
    """Return the error that says all faults of a file, with their lines."""
    layout = locate(text)
    pairs = sorted(
        (
            Problem(layout.line_of(fault.at), place_of(raw, fault.at), fault.found, fault.allowed),
            fault.beyond,
        )
        for fault in faults
    )
    if all(beyond for _, beyond in pairs):
        first = "; ".join(str(problem) for problem, _ in pairs)
        return BeyondToolError(f"{file}, {first}")
    problems = [_marked(problem) if beyond else problem for problem, beyond in pairs]
    if len(problems) > MOST_SHOWN:
        end = Problem(problems[-1].line, "the file", "there is more", "put right those above first")
        problems = [*problems[:MOST_SHOWN], end]
    return CircuitFileError(file, problems)


def _marked(problem: Problem) -> Problem:
    allowed = f"{problem.allowed} (beyond this tool: the machine's manual or a workshop)"
    return Problem(problem.line, problem.place, problem.found, allowed)


def _without_tag(loc: Path) -> tuple[Path, str]:
    """Take out the kind of part that the models put into the path."""
    if len(loc) > 4 and loc[0] == "circuit" and loc[2] == "part":
        return loc[:4] + loc[5:], str(loc[4])
    return loc, ""


def _table_key(at: Path) -> str:
    return next((step for step in reversed(at) if isinstance(step, str)), "")


def _known_keys(at: Path, tag: str) -> list[str]:
    key = _table_key(at)
    model = models.PART_MODELS[tag] if key == "part" else _TABLES.get(key, models.Document)
    return [field.alias or name for name, field in model.model_fields.items()]


def _ours(at: Path, _tag: str, error: ErrorDetails) -> Iterator[Fault]:
    said: Sequence[Said] = error["ctx"]["said"]
    for found, allowed in said:
        yield Fault(at, found, allowed)


def _missing(at: Path, _tag: str, _error: ErrorDetails) -> Iterator[Fault]:
    key = str(at[-1])
    yield Fault(at, "it is missing", f"give {_HEADINGS.get(key, f'{key} = ...')}")


def _unknown_key(at: Path, tag: str, _error: ErrorDetails) -> Iterator[Fault]:
    key = str(at[-1])
    if key in RESERVED.get(at[:-1], ()):
        yield Fault(at, "this is reserved for a later format and not readable yet", "take it out")
    else:
        yield Fault(at, "this key is not known here", nearest(key, _known_keys(at[:-1], tag)))


def _no_table(at: Path, _tag: str, error: ErrorDetails) -> Iterator[Fault]:
    heading = _HEADINGS[_table_key(at)]
    yield Fault(at, f"{shown(error['input'])} is not a table", f"write {heading}")


def _no_list(at: Path, _tag: str, error: ErrorDetails) -> Iterator[Fault]:
    value, heading = error["input"], _HEADINGS.get(str(at[-1]))
    if heading is not None:
        found = "one pair of brackets" if isinstance(value, Mapping) else shown(value)
        yield Fault(at, f"{found} where a list of tables belongs", f"write {heading}")
    else:
        yield Fault(at, f"{shown(value)} is not a list", "a list in square brackets")


def _too_short(at: Path, _tag: str, _error: ErrorDetails) -> Iterator[Fault]:
    yield Fault(at, "the list is empty", "at least one")


def _too_long(at: Path, _tag: str, error: ErrorDetails) -> Iterator[Fault]:
    yield Fault(at, f"{len(error['input'])} of them", f"at most {error['ctx']['max_length']}")


def _no_kind(at: Path, _tag: str, _error: ErrorDetails) -> Iterator[Fault]:
    yield Fault((*at, "kind"), "it is missing", "one of: " + ", ".join(PartKind))


def _unknown_kind(at: Path, _tag: str, error: ErrorDetails) -> Iterator[Fault]:
    kind = error["input"]["kind"]
    if kind in POWER_KINDS:
        yield Fault(
            (*at, "kind"),
            f"{shown(kind)}: a power-assisted unit",
            "such a system is not reckoned",
            beyond=True,
        )
    elif isinstance(kind, str):
        yield Fault(
            (*at, "kind"), f"{shown(kind)} is not a kind of part", nearest(kind, list(PartKind))
        )
    else:
        yield Fault((*at, "kind"), f"{shown(kind)} is not text", "one of: " + ", ".join(PartKind))


_WORDS: dict[str, Callable[[Path, str, Any], Iterator[Fault]]] = {
    "ours": _ours,
    "missing": _missing,
    "extra_forbidden": _unknown_key,
    "model_attributes_type": _no_table,
    "model_type": _no_table,
    "list_type": _no_list,
    "too_short": _too_short,
    "too_long": _too_long,
    "union_tag_not_found": _no_kind,
    "union_tag_invalid": _unknown_kind,
}
