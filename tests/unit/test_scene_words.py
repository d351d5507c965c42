# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a drawing says in sentences, and where it says that air can rest."""

from dataclasses import replace

import pytest

from firmlever.domain.circuit import Circuit, Control, Line, Part, PartKind, Screw
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.domain.scene import Scene
from firmlever.report.scene import scene_of
from unit import plan_example
from unit import scene_bench as bench


def chain(*heights: Quantity | None, via: tuple[tuple[float, float], ...] = ()) -> Circuit:
    """A pot, a master cylinder, a modulator without a screw and a caliper."""
    kinds = (PartKind.RESERVOIR, PartKind.MASTER, PartKind.MODULATOR, PartKind.CALIPER)
    names = ("pot", "master", "unit", "caliper")
    parts = tuple(
        Part(name, kind, {} if height is None else {"height_mm": height})
        for name, kind, height in zip(names, kinds, heights, strict=True)
    )
    parts = (*parts[:3], replace(parts[3], screws=(Screw("caliper"),)))
    lines = (Line("pot", "master"), Line("master", "unit", via_mm=via), Line("unit", "caliper"))
    return Circuit("rear", Control.PEDAL, parts, lines)


def places(scene: Scene) -> list[str]:
    return [place.owner for place in scene.resting]


def test_the_demo_tourer_is_told_from_the_pot_down() -> None:
    bike, circuit = bench.SHIPPED["skerry front"]
    assert scene_of(circuit, bench.usual(bike, circuit)).words == (
        "The pot stands highest, at 1.06 m.",
        "From the pot a line falls to the master at 1.04 m.",
        (
            "From the master a line rises to 1.09 m, where air can rest, "
            "and falls to the abs unit at 0.62 m."
        ),
        "From the abs unit a line rises to the splitter at 0.76 m.",
        "Air can rest in the splitter.",
        "From the splitter two lines lead on: to the left caliper and the right caliper.",
        "From the splitter a line falls to the left caliper at 0.32 m.",
        "The left caliper has a bleed screw.",
        "From the splitter a line falls to the right caliper at 0.32 m.",
        "The right caliper has a bleed screw.",
    )


def test_usual_heights_are_called_so() -> None:
    circuit = chain(Exact(900.0), None, None, None)
    scene = scene_of(circuit, {"master": 880.0, "unit": 500.0})
    assert scene.words == (
        "The pot stands highest, at 0.90 m.",
        "From the pot a line falls to the master at about 0.88 m, the usual height.",
        "From the master a line falls to the unit at about 0.50 m, the usual height.",
        "From the unit a line falls to the caliper at about 0.44 m, the usual height.",
        "The caliper has a bleed screw.",
    )
    assert [part.height_known for part in scene.parts] == [True, False, False, False]


def test_a_part_above_both_its_neighbours_holds_air() -> None:
    high = chain(Exact(900.0), Exact(400.0), Exact(600.0), Exact(300.0))
    assert places(scene_of(high, {})) == ["unit"]
    low = chain(Exact(900.0), Exact(400.0), Exact(350.0), Exact(300.0))
    assert places(scene_of(low, {})) == []


def test_a_screw_lets_the_air_out_unless_its_chamber_is_higher() -> None:
    circuit = chain(Exact(900.0), Exact(400.0), Exact(600.0), Exact(300.0))
    for above_ml, expected in ((None, []), (0.0, []), (1.5, ["unit"])):
        given = {} if above_ml is None else {"above_ml": Exact(above_ml)}
        unit = replace(circuit.part("unit"), screws=(Screw("unit", given),))
        parts = tuple(unit if part.id == "unit" else part for part in circuit.parts)
        assert places(scene_of(replace(circuit, parts=parts), {})) == expected


@pytest.mark.parametrize(
    ("unit", "expected"), [(Between(580.0, 620.0), ["unit"]), (Between(380.0, 620.0), [])]
)
def test_a_height_given_as_a_range_counts_by_its_bad_end(
    unit: Between, expected: list[str]
) -> None:
    circuit = chain(Exact(900.0), Exact(400.0), unit, Exact(300.0))
    assert places(scene_of(circuit, {})) == expected


def test_no_air_is_claimed_where_a_height_is_not_known() -> None:
    circuit = chain(Exact(900.0), None, Exact(600.0), Exact(300.0), via=((100.0, 700.0),))
    assert places(scene_of(circuit, {"master": 400.0})) == []
    unit_unknown = chain(Exact(900.0), Exact(400.0), None, Exact(300.0))
    assert places(scene_of(unit_unknown, {"unit": 600.0})) == []


def test_a_hose_that_arches_holds_air_at_its_top() -> None:
    circuit = chain(Exact(900.0), Exact(880.0), Exact(600.0), Exact(300.0), via=((100.0, 950.0),))
    scene = scene_of(circuit, {})
    assert places(scene) == ["master > unit"]
    (place,) = scene.resting
    (line,) = (line for line in scene.lines if line.owner == "master > unit")
    assert place.at[1] == min(y for _, y in line.points)


def test_a_turning_point_on_the_way_down_makes_no_hump() -> None:
    circuit = chain(Exact(900.0), Exact(880.0), Exact(600.0), Exact(300.0), via=((100.0, 700.0),))
    (line,) = (line for line in scene_of(circuit, {}).lines if line.owner == "master > unit")
    assert bench.reversals(line.points) == 0


def test_the_invented_example_marks_both_its_air_traps() -> None:
    assert places(scene_of(plan_example.front(), {})) == ["master > abs unit", "tee"]
