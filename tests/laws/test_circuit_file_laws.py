# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Names and the order of keys carry no meaning of their own."""

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from counts import examples
from firmlever.domain.circuit import Bike, Circuit, Line, Part
from firmlever.domain.graph import faults_in, route, screws_in
from firmlever.store.circuit_file.read import read_bike
from unit.circuit_file_texts import PACKAGED
from unit.random_toml import toml_texts

KEPT = Path(__file__).parents[1] / "formats" / "circuit_format_1.toml"
GRADES = ("DOT 3", "DOT 4", "DOT 5", "DOT 5.1", "mineral oil")
RAW = [tomllib.loads(file.read_text("utf-8")) for file in (*PACKAGED, KEPT)]
BIKES = [read_bike(file.name, file.read_text("utf-8"), GRADES) for file in (*PACKAGED, KEPT)]
CIRCUITS = [circuit for bike in BIKES for circuit in bike.circuits]
NAMES = st.text(
    st.characters(categories=("L", "Nd"), include_characters="-_.,()"), min_size=1, max_size=12
)


def renamed(circuit: Circuit, names: dict[str, str]) -> Circuit:
    def part(old: Part) -> Part:
        return replace(old, id=names[old.id])

    def line(old: Line) -> Line:
        return replace(old, start=names[old.start], end=names[old.end])

    return replace(
        circuit, parts=tuple(map(part, circuit.parts)), lines=tuple(map(line, circuit.lines))
    )


@settings(deadline=None)
@given(st.data())
def test_renaming_parts_changes_no_route(data: Any) -> None:
    circuit = data.draw(st.sampled_from(CIRCUITS))
    ids = [part.id for part in circuit.parts]
    new = data.draw(st.lists(NAMES, min_size=len(ids), max_size=len(ids), unique=True))
    names = dict(zip(ids, new, strict=True))
    other = renamed(circuit, names)
    assert faults_in(other) == faults_in(circuit) == ()
    for part in circuit.parts:
        way = [names[before.id] for before in route(circuit, part.id)]
        assert [before.id for before in route(other, names[part.id])] == way
    screws = [(names[part.id], screw) for part, screw in screws_in(circuit)]
    assert [(part.id, screw) for part, screw in screws_in(other)] == screws
    assert other.family == circuit.family


@settings(deadline=None)
@given(st.data())
def test_renaming_parts_of_a_faulty_circuit_moves_no_fault(data: Any) -> None:
    circuit = data.draw(st.sampled_from(CIRCUITS))
    ids = st.sampled_from([part.id for part in circuit.parts])
    strays = data.draw(st.lists(st.tuples(ids, ids), min_size=1, max_size=3))
    faulty = replace(circuit, lines=(*circuit.lines, *(Line(*ends) for ends in strays)))
    names = {part.id: f"part {index}" for index, part in enumerate(circuit.parts)}
    faults, others = faults_in(faulty), faults_in(renamed(faulty, names))
    assert faults
    assert [(f.at, f.beyond) for f in others] == [(f.at, f.beyond) for f in faults]


def shuffled(value: Any, data: Any) -> Any:
    """Return tables with their keys in another order; lists keep theirs."""
    if isinstance(value, dict):
        keys = data.draw(st.permutations(list(value)))
        return {key: shuffled(value[key], data) for key in keys}
    if isinstance(value, list):
        return [shuffled(inner, data) for inner in value]
    return value


@settings(deadline=None, max_examples=examples(40))
@given(st.data())
def test_order_of_keys_and_style_of_text_change_nothing(data: Any) -> None:
    index = data.draw(st.integers(0, len(RAW) - 1))
    text = data.draw(toml_texts(shuffled(RAW[index], data)))
    bike: Bike = read_bike("a.toml", text, GRADES)
    assert bike == BIKES[index]
