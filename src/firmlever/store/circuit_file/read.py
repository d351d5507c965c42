# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Reads and checks the text of a circuit file: a machine, or all its faults at once."""

import copy
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from pydantic import ValidationError

from firmlever.domain.circuit import Bike, Circuit, SequenceStep
from firmlever.domain.contradictions import contradictions_in
from firmlever.domain.fault import Fault, Path
from firmlever.domain.graph import faults_between, faults_in
from firmlever.store.circuit_file.convert import bike_from, circuit_from
from firmlever.store.circuit_file.faults import faults_of, refusal
from firmlever.store.circuit_file.models import FORMAT, CircuitTable, Document
from firmlever.store.circuit_file.parse import parse
from firmlever.store.circuit_file.words import shown


def read_bike(file: str, text: str, grades: Sequence[str]) -> Bike:
    """Return the machine that a text describes; ``file`` names it in messages.

    Raises
    ------
    CircuitFileError
        With everything that is wrong.
    BeyondToolError
        When all that is wrong is that the machine must not be approximated.
    """
    raw = parse(file, text)
    faults = list(_format_faults(raw))
    if faults:
        raise refusal(file, text, raw, faults)
    context = {"grades": tuple(grades)}
    try:
        bike = bike_from(Document.model_validate(raw, context=context))
    except ValidationError as error:
        refused = list(faults_of(error.errors(include_url=False)))
        circuits = list(_sound_circuits(raw, refused, context))
        faults = [*refused, *_structure_faults(circuits, _sound_steps(raw, refused))]
        raise refusal(file, text, raw, faults) from None
    faults = list(_structure_faults(bike.circuits, bike.sequence))
    if faults:
        raise refusal(file, text, raw, faults)
    return bike


def _format_faults(raw: dict[str, Any]) -> Iterator[Fault]:
    found = raw.get("format")
    reads = f"this one reads format {FORMAT}"
    if found is None:
        yield Fault(("format",), "it is missing", f"the file starts with format = {FORMAT}")
    elif isinstance(found, bool) or not isinstance(found, int) or found < FORMAT:
        yield Fault(("format",), f"there is no format {shown(found)}", reads)
    elif found > FORMAT:
        yield Fault(("format",), f"written by a newer firmlever (format {shown(found)})", reads)


def _structure_faults(
    circuits: Sequence[Circuit | None], steps: Sequence[SequenceStep]
) -> Iterator[Fault]:
    for index, circuit in enumerate(circuits):
        if circuit is not None:
            for fault in (*faults_in(circuit), *contradictions_in(circuit)):
                yield fault.under("circuit", index)
    sound = [circuit for circuit in circuits if circuit is not None]
    if len(sound) == len(circuits):
        yield from faults_between(sound, steps)


def _sound_circuits(
    raw: dict[str, Any], faults: Sequence[Fault], context: dict[str, Any]
) -> Iterator[Circuit | None]:
    """Yield each circuit less what was refused in it, or None where too little is left."""
    tables = raw.get("circuit")
    for index, table in enumerate(tables if isinstance(tables, list) else ()):
        inside = [fault.at[2:] for fault in faults if fault.at[:2] == ("circuit", index)]
        try:
            rest = CircuitTable.model_validate(_without(table, inside), context=context)
        except ValidationError:
            yield None
        else:
            yield circuit_from(rest)


def _without(table: object, paths: Iterable[Path]) -> object:
    """Return a copy of a table less the keys that paths lead to, where it can do without.

    A broken list of parts, lines or screws stays, so that nobody takes what is left
    for the whole circuit.
    """
    rest = copy.deepcopy(table)
    for path in paths:
        here: Any = rest
        for position, step in enumerate(path):
            if isinstance(step, str) and step not in ("part", "line", "screw"):
                here.pop(step, None)
                break
            if position < len(path) - 1:
                here = here[step]
    return rest


def _sound_steps(raw: dict[str, Any], faults: Sequence[Fault]) -> list[SequenceStep]:
    if any(fault.at[:1] == ("sequence",) for fault in faults):
        return []
    return [SequenceStep(**step) for step in raw.get("sequence", [])]
