# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Laws of the air map on circuits laid out by hand, and sense on those that ship."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firmlever.bootstrap import open_workshop
from firmlever.domain.air import PlaceKind
from firmlever.domain.air_map import AirMap, AirRequest, Posture
from firmlever.domain.circuit import (
    Bike,
    BikeClass,
    Circuit,
    Control,
    FluidFill,
    Line,
    Part,
    PartKind,
    Screw,
)
from firmlever.domain.quantity import Exact
from firmlever.errors import InputError
from firmlever.services.air import air_of

ON = date(2026, 5, 1)
WORKSHOP = open_workshop()
FEW = settings(max_examples=25, deadline=None)


def circuit(
    via: Sequence[tuple[float, float]] = (),
    *,
    master_mm: float = 1000.0,
    caliper_mm: float = 300.0,
    screw_mm: float = 330.0,
    above_ml: float = 0.0,
    bore_mm: float = 4.5,
    more: Sequence[Part] = (),
    lines: Sequence[Line] = (),
) -> Circuit:
    """A reservoir, a master cylinder and a caliper, all heights known."""

    def part(name: str, kind: PartKind, **known: float) -> Part:
        return Part(name, kind, {key: Exact(value) for key, value in known.items()})

    screw = Screw("caliper", {"height_mm": Exact(screw_mm), "above_ml": Exact(above_ml)})
    caliper = replace(
        part("caliper", PartKind.CALIPER, height_mm=caliper_mm, volume_ml=10.0), screws=(screw,)
    )
    line = Line(
        "master",
        "caliper",
        {"bore_mm": Exact(bore_mm), "length_mm": Exact(1000.0)},
        via_mm=tuple(via),
    )
    return Circuit(
        "front",
        Control.LEVER,
        (
            part("pot", PartKind.RESERVOIR, height_mm=master_mm + 30.0, max_ml=30.0, min_ml=12.0),
            part("master", PartKind.MASTER, height_mm=master_mm, bore_mm=14.0),
            caliper,
            *more,
        ),
        (Line("pot", "master", {"bore_mm": Exact(6.0), "length_mm": Exact(40.0)}), line, *lines),
        FluidFill(("DOT 4",), "DOT 4"),
    )


def air(made: Circuit, posture: Posture | None = None) -> AirMap:
    bike = Bike("Test", BikeClass.NAKED, (made,))
    return air_of(bike, made, AirRequest(ON, posture or Posture()), WORKSHOP.tables)


def ids(made: Circuit, posture: Posture | None = None) -> list[str]:
    return [place.id for place in air(made, posture).places]


def test_a_way_that_only_rises_has_no_trap() -> None:
    assert ids(circuit()) == []


@FEW
@given(st.floats(100.0, 900.0), st.floats(60.0, 300.0))
def test_an_added_peak_adds_one_place(along_mm: float, over_mm: float) -> None:
    made = circuit([(along_mm, 1000.0 + over_mm)])
    [place] = air(made).places
    assert (place.kind, place.at_mm, place.likely) == (PlaceKind.PEAK, along_mm, 1.0)
    assert place.height_mm.p50 == pytest.approx(1000.0 + over_mm)


def test_a_peak_holds_its_line_down_to_the_higher_low_point() -> None:
    """Derived: 200 mm up to the peak, and 200 mm down again of a leg that falls 800 mm."""
    [place] = air(circuit([(200.0, 1200.0)], caliper_mm=400.0, screw_mm=430.0)).places
    # bore 4.5 mm, known within 3 per cent
    assert place.holds_ml.p50 == pytest.approx(0.001 * 3.14159 / 4 * 4.5**2 * 400.0, rel=0.02)


def test_upside_down_swaps_climbs_and_traps() -> None:
    """What is a peak becomes a sag, and a sag a peak."""
    upright = circuit([(300.0, 1100.0), (600.0, 200.0)])
    turned = circuit(
        [(300.0, 200.0), (600.0, 1100.0)], master_mm=300.0, caliper_mm=1000.0, screw_mm=970.0
    )
    assert [place.at_mm for place in air(upright).places] == [300.0]
    swapped = {place.kind: place.at_mm for place in air(turned).places}
    assert swapped[PlaceKind.PEAK] == 600.0
    assert swapped[PlaceKind.ABOVE_SCREW] is None
    for leg, other in zip(air(upright).legs[1:], air(turned).legs[1:], strict=True):
        rises = leg.to_height_mm.p50 > leg.from_height_mm.p50
        assert (other.to_height_mm.p50 > other.from_height_mm.p50) is not rises


def test_more_bore_never_holds_better() -> None:
    held = [air(circuit(bore_mm=bore)).legs[1].held for bore in (2.5, 3.0, 3.2, 3.4, 3.8, 6.0)]
    assert held == sorted(held, reverse=True)
    assert (held[0], held[-1]) == (1.0, 0.0)
    # bore and fluid are not known to the last digit: the limit is a slope
    assert 0.1 < held[2] < 0.9


def test_lifting_the_master_takes_the_peak_away() -> None:
    made = circuit([(120.0, 1030.0)])
    assert len(ids(made)) == 1
    assert ids(made, Posture(lifted_mm={"master": 300.0})) == []


def test_bars_turned_towards_the_master_lower_it() -> None:
    """Derived: the end of the bars that goes forward rises, for the head leans back."""
    heights = [
        air(circuit(), Posture(bars_deg=bars)).legs[1].from_height_mm.p50 for bars in (-30, 0, 30)
    ]
    assert heights[0] < heights[1] < heights[2]
    assert heights[1] == pytest.approx(1000.0)


def test_a_level_banjo_fills_where_a_raised_one_traps() -> None:
    """Common practice, no source."""
    raised = air(circuit([(30.0, 1015.0)])).places
    assert [place.kind for place in raised] == [PlaceKind.BANJO]
    assert ids(circuit([(30.0, 1000.0)])) == []


def test_a_screw_at_the_bottom_never_clears_until_it_is_turned_up() -> None:
    """Common practice, no source: calipers swapped from side to side."""
    low = circuit(screw_mm=270.0)
    [place] = air(low).places
    assert (place.kind, place.likely) == (PlaceKind.ABOVE_SCREW, 1.0)
    assert ids(low, Posture(screw_up=("caliper",))) == []


def test_a_dead_end_that_points_up_traps_and_one_that_hangs_does_not() -> None:
    def with_switch(height_mm: float) -> Circuit:
        switch = Part("switch", PartKind.DEAD_END, {"height_mm": Exact(height_mm)})
        knot = Part("knot", PartKind.JOINT, {"height_mm": Exact(500.0)})
        size = {"bore_mm": Exact(4.5), "length_mm": Exact(400.0)}
        made = circuit(more=(knot, switch))
        lines = (Line("master", "knot", size), Line("knot", "caliper", size))
        return replace(made, lines=(made.lines[0], *lines, Line("knot", "switch", size)))

    [place] = air(with_switch(600.0)).places
    assert (place.kind, place.owner) == (PlaceKind.DEAD_END, "switch")
    assert ids(with_switch(400.0)) == []


def test_a_climbing_bubble_is_followed_to_its_end() -> None:
    legs = air(circuit([(300.0, 1100.0), (600.0, 200.0)])).legs
    assert [leg.climbs_to for leg in legs] == [
        "reservoir",
        "peak of a line, master > caliper at 300 mm",
        "peak of a line, master > caliper at 300 mm",
        "caliper",
    ]


DEMO = sorted(
    one.name for one in files("firmlever").joinpath("data", "demo").iterdir() if one.is_file()
)
ODD = sorted(path.name for path in (Path(__file__).parents[1] / "data" / "odd").glob("*.toml"))


@pytest.mark.parametrize("name", [*DEMO, *ODD])
def test_every_circuit_has_a_map(name: str) -> None:
    folder = Path(str(files("firmlever").joinpath("data", "demo")))
    odd = Path(__file__).parents[1] / "data" / "odd"
    bike = WORKSHOP.files.read(str((odd if name in ODD else folder) / name))
    for made in bike.circuits:
        found = air_of(bike, made, AirRequest(ON), WORKSHOP.tables)
        assert len({place.id for place in found.places}) == len(found.places)
        legs = sum(len(line.via_mm) + 1 for line in made.lines)
        assert len(found.legs) == legs
        for place in found.places:
            assert 0.05 <= place.likely <= 1.0
            assert 0.0 <= place.holds_ml.p05 <= place.holds_ml.p95 < 150.0
        units = {part.id for part in made.of_kind(PartKind.MODULATOR)}
        pockets = {one.owner for one in found.places if one.kind is PlaceKind.UNSWEPT}
        assert units <= pockets


@pytest.mark.parametrize(
    ("posture", "complaint"),
    [
        (Posture(bars_deg=90.0), "--bars cannot be 90; it is in °, -45 to 45"),
        (Posture(lean_deg=-70.0), "--lean cannot be -70; it is in °, -60 to 60"),
        (
            Posture(lifted_mm={"mastr": 10.0}),
            "there is no part called “mastr”; did you mean “master”? Known: pot, master, caliper",
        ),
        (Posture(lifted_mm={"master": 2e3}), "--lift cannot be 2000; it is in mm, -1500 to 1500"),
        (
            Posture(screw_up=("master",)),
            "there is no caliper called “master”. Known: caliper",
        ),
    ],
    ids=str,
)
def test_an_impossible_posture_is_refused(posture: Posture, complaint: str) -> None:
    with pytest.raises(InputError) as refused:
        air(circuit(), posture)
    assert str(refused.value) == complaint
