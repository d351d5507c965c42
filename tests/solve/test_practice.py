# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What people report, and one circuit described from real figures."""

import pytest

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
from firmlever.domain.plan import FlushPlan
from firmlever.domain.quantity import Exact
from firmlever.domain.tables import Method
from solve.machines import asked, kept, outline

TWIN_DISC = (
    BikeClass.NAKED,
    BikeClass.SPORT,
    BikeClass.TOURER,
    BikeClass.ADVENTURE,
    BikeClass.CRUISER,
)
# common practice, no source: two to three fillings from MAX to MIN for each caliper
REPORTED = (2.0, 3.0)
# a quarter of a filling either way, for what people count as a filling
GRACE = 0.25


def ordinary(bike_class: BikeClass, wheel: str) -> Bike:
    """A pot on its master, a line to each caliper, and nothing else known but the class."""
    twin = wheel == "front" and bike_class in TWIN_DISC
    names = ("left caliper", "right caliper") if twin else ("caliper",)
    calipers = tuple(
        Part(name, PartKind.CALIPER, {}, (Screw(name),), wheel=wheel) for name in names
    )
    circuit = Circuit(
        wheel,
        Control.LEVER if wheel == "front" else Control.PEDAL,
        (Part("pot", PartKind.RESERVOIR), Part("master", PartKind.MASTER), *calipers),
        (
            Line("pot", "master", {"bore_mm": Exact(6.0), "length_mm": Exact(8.0)}),
            *(Line("master", name) for name in names),
        ),
        FluidFill(("DOT 4",), "DOT 4"),
    )
    return Bike("Ordinary", bike_class, (circuit,))


def pots_per_caliper(bike: Bike, name: str, target: float) -> tuple[float, float, float]:
    """How many fillings each caliper takes, with the band."""
    pots = asked(bike, name, target=target).pots_min_max
    calipers = len(bike.circuit(name).of_kind(PartKind.CALIPER))
    return pots.p05 / calipers, pots.p50 / calipers, pots.p95 / calipers


@pytest.mark.parametrize("wheel", ["front", "rear"])
@pytest.mark.parametrize("bike_class", list(BikeClass))
def test_pots_for_90_to_95_percent_new_are_what_people_report(
    bike_class: BikeClass, wheel: str
) -> None:
    """Common practice, no source: between 90 and 95 % lies what people call clean."""
    bike = ordinary(bike_class, wheel)
    least, modest, _ = pots_per_caliper(bike, wheel, 0.90)
    _, strict, most = pots_per_caliper(bike, wheel, 0.95)
    assert modest <= REPORTED[1] + GRACE
    assert strict >= REPORTED[0] - GRACE
    assert least <= REPORTED[0] + GRACE
    assert most >= REPORTED[1] - GRACE


@pytest.mark.parametrize("name", ["naked", "sport", "tourer", "adventure"])
def test_an_abs_unit_takes_more_pots_than_people_report(name: str) -> None:
    """Derived: two to four metres of line and a chamber more, for the same caliper."""
    _, with_abs, _ = pots_per_caliper(outline(name), "rear", 0.93)
    _, without, _ = pots_per_caliper(ordinary(BikeClass(name), "rear"), "rear", 0.93)
    assert without < with_abs < 6.0


@pytest.fixture(scope="module")
def workshop() -> FlushPlan:
    """The circuit described from the figures of an unnamed workshop manual."""
    return asked(kept("workshop_1"), "front")


def test_a_circuit_from_real_figures_gets_a_plausible_plan(workshop: FlushPlan) -> None:
    """By hand: the caliper holds 14.3 cm2 x 0.28 ml/cm2 home and 14.3 cm2 x 3.3 mm behind worn
    pads (twice the wear, it floats): 8.7 ml, nine tenths of them swept. A hose of 3.2 mm and
    0.85 m holds 7 ml, the master 2 ml. To 95 % a chamber takes 3.0 of its volumes, a line 2.2.
    In series they take more than the slower one alone, and less than both after each other.
    """
    chamber_ml, hose_ml, master_ml = 3.0 * 0.9 * 8.7, 2.2 * 7.0, 3.0 * 2.0
    assert chamber_ml < workshop.through_ml.p50 < chamber_ml + hose_ml + master_ml
    least, middle, most = (
        workshop.pots_min_max.p05,
        workshop.pots_min_max.p50,
        workshop.pots_min_max.p95,
    )
    assert least < REPORTED[0] + GRACE
    assert REPORTED[0] - GRACE < middle < REPORTED[1] + GRACE
    assert most > REPORTED[1] - GRACE
    (point,) = workshop.points
    assert point.strokes is not None
    # a bore of 12.7 mm swept over 8 to 13 mm less the port gives about a millilitre
    assert workshop.through_ml.p50 / point.strokes.p50 == pytest.approx(1.1, abs=0.2)


def test_a_circuit_from_real_figures_keeps_its_plan(workshop: FlushPlan) -> None:
    """Regression: this program's own figures, seed 1, of 25 November 2026."""
    (point,) = workshop.points
    figures = (
        workshop.through_ml.p05,
        workshop.through_ml.p50,
        workshop.through_ml.p95,
        100.0 * workshop.left_old.whole.p05,
        100.0 * workshop.left_old.whole.p50,
        100.0 * workshop.left_old.whole.p95,
        workshop.pots_min_max.p50,
        workshop.reservoir.usable_ml.p50,
        workshop.reservoir.fill_to_ml.p50,
        workshop.minutes.p50,
    )
    assert figures == pytest.approx(
        (31.43, 43.61, 55.34, 2.161, 4.211, 7.778, 3.106, 14.01, 19.07, 23.63), rel=2e-3
    )
    assert point.strokes is not None
    assert (point.strokes.p05, point.strokes.p50, point.strokes.p95) == (26, 39, 59)
    assert workshop.buy_ml == 250
    assert [one.name for one in workshop.narrow] == [
        "front caliper/unswept_ml",
        "front caliper/pad_mm",
        "front caliper/pad_new_mm",
        "pot/max_ml",
    ]


def test_what_the_manual_gives_is_not_assumed(workshop: FlushPlan) -> None:
    assumed = {one.name for one in workshop.assumed}
    assert "front caliper/unswept_ml" in assumed
    assert not assumed & {"master/bore_mm", "front caliper/pistons_mm", "pot > master/bore_mm"}


@pytest.mark.parametrize("method", [Method.VACUUM, Method.GRAVITY, Method.PRESSURE])
def test_a_circuit_from_real_figures_can_be_flushed_by_other_means(
    workshop: FlushPlan, method: Method
) -> None:
    made = asked(kept("workshop_1"), "front", method=method)
    assert made.through_ml.p50 == pytest.approx(workshop.through_ml.p50, rel=0.05)
