# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Drawings of the demo workshop and of the odd circuits: sound, steady, told in words."""

from itertools import combinations, pairwise
from pathlib import Path

import pytest

from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.scene import Scene, ScenePart
from firmlever.report.scene import scene_of
from firmlever.report.scene_svg import svg_of
from firmlever.services.describing import usual_heights

WORKSHOP = open_workshop()
ODD = sorted((Path(__file__).parents[1] / "data" / "odd").glob("*.toml"))
BIKES = (*WORKSHOP.files.demo(), *(WORKSHOP.files.read(str(path)) for path in ODD))
CASES = [(bike, circuit) for bike in BIKES for circuit in bike.circuits]
NAMES = [f"{bike.name} {circuit.name}" for bike, circuit in CASES]


def drawn(bike: Bike, circuit: Circuit) -> Scene:
    return scene_of(circuit, usual_heights(bike, circuit, WORKSHOP.tables))


def overlap(one: ScenePart, other: ScenePart) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    return across and one.y < other.y + other.height and other.y < one.y + one.height


@pytest.mark.parametrize(("bike", "circuit"), CASES, ids=NAMES)
def test_every_part_line_and_screw_is_drawn_in_its_place(bike: Bike, circuit: Circuit) -> None:
    scene = drawn(bike, circuit)
    assert {part.owner for part in scene.parts} == {part.id for part in circuit.parts}
    assert {line.owner for line in scene.lines} == {
        f"{line.start} > {line.end}" for line in circuit.lines
    }
    assert {screw.screw for screw in scene.screws} == {
        screw.id for part in circuit.parts for screw in part.screws
    }
    assert not [pair for pair in combinations(scene.parts, 2) if overlap(*pair)]
    for part in scene.parts:
        assert 0 <= part.x <= part.x + part.width <= scene.width
        assert 0 <= part.y <= part.y + part.height <= scene.height


@pytest.mark.parametrize(("bike", "circuit"), CASES, ids=NAMES)
def test_higher_is_never_drawn_lower(bike: Bike, circuit: Circuit) -> None:
    parts = sorted(drawn(bike, circuit).parts, key=lambda part: -part.height_mm)
    middles = [part.y + part.height / 2 for part in parts]
    assert all(
        low >= high - max(one.height, other.height) / 2
        for (one, other), (high, low) in zip(
            pairwise(parts),
            pairwise(middles),
            strict=True,
        )
        if one.height_mm > other.height_mm
    )


@pytest.mark.parametrize(("bike", "circuit"), CASES, ids=NAMES)
def test_the_same_circuit_gives_the_same_picture(bike: Bike, circuit: Circuit) -> None:
    scene = drawn(bike, circuit)
    assert scene == drawn(bike, circuit)
    picture = svg_of(scene, None)
    assert picture.startswith("<svg")
    assert all(word in picture for word in ("<title", "<desc", 'role="img"'))


def test_the_words_tell_heights_and_where_air_can_rest() -> None:
    bike = next(bike for bike in BIKES if bike.name == "Skerry 1100")
    words = " ".join(drawn(bike, bike.circuit("front")).words)
    assert "1.06 m" in words
    assert "air can rest" in words
