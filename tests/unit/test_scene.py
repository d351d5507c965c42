# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Laws of every drawing: nothing covers anything, and height is never told wrong."""

import json
from collections.abc import Mapping
from dataclasses import asdict
from itertools import combinations, pairwise

import pytest
from hypothesis import Phase, given, settings

from counts import examples
from firmlever.domain.circuit import Circuit
from firmlever.domain.scene import Scene
from firmlever.report.scene import scene_of
from firmlever.report.scene_boxes import Rect
from firmlever.report.scene_tree import tree_of
from snapshot import same_as_kept
from unit import scene_bench as bench

# A drawing takes a while: few of them, and no search for the smallest.
FEW = settings(max_examples=examples(8), phases=(Phase.explicit, Phase.generate))

Drawn = bench.Drawn
SHIPPED = pytest.mark.parametrize("name", bench.SHIPPED)


def shipped(name: str) -> Drawn:
    bike, circuit = bench.SHIPPED[name]
    return circuit, bench.usual(bike, circuit)


def check_nothing_covers_anything(scene: Scene) -> None:
    things = bench.boxes(scene) | bench.hexagons(scene) | bench.texts(scene)
    met = [
        (one, other)
        for (one, a), (other, b) in combinations(things.items(), 2)
        if a.grown(-0.5).meets(b.grown(-0.5)) and not is_air_inside(one, other)
    ]
    assert not met
    frame = Rect(0.0, 0.0, scene.width, scene.height)
    outside = [
        name
        for name, rect in things.items()
        if rect.left < frame.left
        or rect.top < frame.top
        or rect.right > frame.right
        or rect.bottom > frame.bottom
    ]
    assert not outside


def is_air_inside(one: str, other: str) -> bool:
    return f"air in {one}" == other


def check_lines_join_their_parts(scene: Scene, circuit: Circuit) -> None:
    boxes = bench.boxes(scene)
    assert [line.owner for line in scene.lines] == [
        f"{node.line.start} > {node.line.end}" for node in tree_of(circuit, {}) if node.line
    ]
    for line in scene.lines:
        start, end = line.owner.split(" > ")
        assert bench.on_edge(line.points[0], boxes[start])
        assert bench.on_edge(line.points[-1], boxes[end])
        assert all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(line.points))


def check_higher_is_never_drawn_lower(scene: Scene) -> None:
    parts = sorted(scene.parts, key=lambda part: (-part.height_mm, part.y + part.height / 2))
    middles = [part.y + part.height / 2 for part in parts]
    assert middles == sorted(middles)
    marks = sorted(scene.marks, key=lambda mark: mark.height_mm)
    assert all(low.y > high.y for low, high in pairwise(marks))


def check_turns(scene: Scene, drawn: Drawn) -> None:
    """A line changes its way as often as its turning points say: no false peak, none left out."""
    turns = {
        f"{node.line.start} > {node.line.end}": len(node.turns_mm)
        for node in tree_of(*drawn)
        if node.line
    }
    assert {line.owner: bench.reversals(line.points) for line in scene.lines} == turns


def covered_by_lines(scene: Scene, rects: Mapping[str, Rect]) -> list[tuple[str, str]]:
    return [
        (line.owner, name)
        for line in scene.lines
        for name, rect in rects.items()
        if name not in line.owner.split(" > ")
        and any(stretch.meets(rect) for stretch in bench.stretches(line))
    ]


@SHIPPED
def test_a_shipped_circuit_is_drawn_clearly(name: str) -> None:
    circuit, usual_mm = shipped(name)
    scene = scene_of(circuit, usual_mm)
    check_nothing_covers_anything(scene)
    check_lines_join_their_parts(scene, circuit)
    check_higher_is_never_drawn_lower(scene)
    check_turns(scene, (circuit, usual_mm))
    names = bench.boxes(scene) | bench.texts(scene) | bench.hexagons(scene)
    assert not covered_by_lines(scene, names)
    air = {f"air in {place.owner}": bench.text_rect(place.label) for place in scene.resting}
    assert not covered_by_lines(scene, {name: rect.grown(2.9) for name, rect in air.items()})
    assert scene.width == 360
    assert len(scene.marks) in range(1, 6)


@given(drawn=bench.likely_circuits())
@FEW
def test_a_likely_circuit_is_drawn_clearly(drawn: Drawn) -> None:
    scene = scene_of(*drawn)
    check_nothing_covers_anything(scene)
    check_lines_join_their_parts(scene, drawn[0])
    check_higher_is_never_drawn_lower(scene)
    assert not covered_by_lines(scene, bench.boxes(scene))


@given(drawn=bench.wild_circuits())
@FEW
def test_even_a_wild_circuit_keeps_its_parts_apart_and_in_order(drawn: Drawn) -> None:
    scene = scene_of(*drawn)
    check_nothing_covers_anything(scene)
    check_lines_join_their_parts(scene, drawn[0])
    check_higher_is_never_drawn_lower(scene)


@given(drawn=bench.likely_circuits())
@FEW
def test_the_same_circuit_gives_the_same_scene(drawn: Drawn) -> None:
    assert scene_of(*drawn) == scene_of(*drawn)


@given(drawn=bench.likely_circuits())
@FEW
def test_a_new_name_changes_only_texts(drawn: Drawn) -> None:
    circuit, usual_mm = drawn
    names = {part.id: f"{part.id} renamed at length" for part in circuit.parts}
    back = {new: old for old, new in names.items()}
    usual_new = {names[part]: height for part, height in usual_mm.items()}
    before = scene_of(circuit, usual_mm)
    after = scene_of(bench.renamed(circuit, names), usual_new)
    assert geometry(after) == geometry(before)
    assert [back[part.owner] for part in after.parts] == [part.owner for part in before.parts]


def geometry(scene: Scene) -> object:
    return (
        scene.width,
        scene.height,
        scene.marks,
        [(part.x, part.y, part.label.at, part.label.anchor) for part in scene.parts],
        [(line.points, line.width) for line in scene.lines],
        [screw.at for screw in scene.screws],
        [(place.at, place.label) for place in scene.resting],
    )


@SHIPPED
def test_left_and_right_may_be_exchanged(name: str) -> None:
    circuit, usual_mm = shipped(name)
    names = {
        part.id: part.id.replace("left", "RIGHT").replace("right", "left").replace("RIGHT", "right")
        for part in circuit.parts
    }
    mirrored = scene_of(
        bench.renamed(circuit, names), {names[part]: at for part, at in usual_mm.items()}
    )
    check_nothing_covers_anything(mirrored)
    for part in mirrored.parts:
        for side, below in (("left", True), ("right", False)):
            if part.owner == f"{side} caliper":
                assert (part.x < 180) is below


@pytest.mark.parametrize(
    "name", ["skerry front", "skerry rear", "remote_anti_dive front", "limpet front"]
)
def test_the_scene_is_the_one_that_was_looked_at(name: str) -> None:
    text = json.dumps(asdict(scene_of(*shipped(name))), indent=1, ensure_ascii=False)
    same_as_kept(f"scene/{name.replace(' ', '-')}.json", text + "\n")
