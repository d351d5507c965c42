# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whole plans of real files: what they promise, and what practice says of them."""

import itertools
from dataclasses import replace
from datetime import date

import pytest

from firmlever.domain.circuit import Bike
from firmlever.domain.tables import Method
from solve.machines import asked, everything, outline, tourer, tourer_front

CASES = list(everything())


@pytest.mark.parametrize(("name", "bike", "circuit"), CASES, ids=lambda x: str(x)[:20])
def test_a_plan_holds_together(name: str, bike: Bike, circuit: str) -> None:
    made = asked(bike, circuit)
    assert made.points, name
    for point in made.points:
        assert point.volume_ml.p05 <= point.volume_ml.p50 <= point.volume_ml.p95
        assert point.strokes is not None
        assert 1 <= point.strokes.p05 <= point.strokes.p95
        for slice_ in point.strip.shares:
            assert sum(slice_) == pytest.approx(1.0, abs=1e-12)
            assert min(slice_) >= 0.0
        curve = [one.p50 for one in point.washout.new_share]
        assert all(after >= before - 0.01 for before, after in itertools.pairwise(curve))
    assert sum(p.volume_ml.p50 for p in made.points) == pytest.approx(made.through_ml.p50, rel=0.1)
    assert 0.0 < made.left_old.whole.p05 < made.left_old.whole.p95 < 0.6
    assert made.buy_ml >= made.through_ml.p95
    left = sum(band.p50 for band in made.left_old.parts_ml.values())
    assert left > 0.0
    assert all(0.0 <= band.p05 <= band.p95 <= 1.0 + 1e-9 for band in made.left_old.parts.values())


def test_pistons_home_first_saves_about_a_third() -> None:
    """Derived: worn pads leave so much behind the pistons that a third is usual."""
    bike = tourer()
    stand, home = asked(bike, "front"), asked(bike, "front", pistons_home=True)
    saved = 1.0 - home.through_ml.p50 / stand.through_ml.p50
    assert 0.1 < saved < 0.45
    assert home.left_old.whole.p50 < stand.left_old.whole.p50
    offered = sum(offer.saves_ml.p50 for offer in stand.pistons_home)
    assert offered == pytest.approx(stand.through_ml.p50 - home.through_ml.p50, rel=0.25)


def test_knowing_more_narrows_the_band() -> None:
    vague, measured = asked(outline("tourer"), "front"), tourer_front()
    width = [p.left_old.whole.p95 - p.left_old.whole.p05 for p in (vague, measured)]
    assert width[1] < width[0]
    assert len(measured.assumed) < len(vague.assumed)


def test_same_wish_same_plan_other_seed_nearly_the_same() -> None:
    bike, circuit = tourer(), "front"
    assert asked(bike, circuit) == asked(bike, circuit)
    one, other = asked(bike, circuit), asked(bike, circuit, seed=7)
    assert one != other
    assert other.left_old.whole.p50 == pytest.approx(one.left_old.whole.p50, rel=0.015)


@pytest.mark.parametrize("method", [Method.VACUUM, Method.GRAVITY, Method.PRESSURE])
def test_methods_without_a_lever_count_no_strokes(method: Method) -> None:
    bike, circuit = tourer(), "front"
    made = asked(bike, circuit, method=method)
    assert all(point.strokes is None for point in made.points)
    assert made.reservoir.strokes_to_min is None
    lever = asked(bike, circuit)
    assert made.through_ml.p50 == pytest.approx(lever.through_ml.p50, rel=0.05)


def test_gravity_through_an_abs_unit_moves_drops_not_jets() -> None:
    """Derived: port and valve seats rule; physics gives tenths of a millilitre a second."""
    bike, circuit = tourer(), "front"
    made = asked(bike, circuit, method=Method.GRAVITY)
    through = made.through_ml.p50 / 60.0
    flowing = sum(point.minutes.p50 for point in made.points)
    assert 0.02 < through / flowing < 0.6


def test_upwards_the_same_circuit_comes_clean_too() -> None:
    odd = next(bike for name, bike, _ in CASES if name == "double_banjo")
    fresh = replace(
        odd.circuits[0],
        fluid=replace(odd.circuits[0].fluid, filled="DOT 4", filled_on=date(2026, 1, 1)),
    )
    bike = replace(odd, circuits=(fresh,))
    up = asked(bike, fresh.name, method=Method.REVERSE)
    down = asked(bike, fresh.name)
    assert up.left_old.whole.p50 == pytest.approx(down.left_old.whole.p50, abs=0.05)
    assert up.points[0].strip.origins == down.points[0].strip.origins


def test_the_manual_order_is_kept_with_its_postures() -> None:
    bike = next(bike for _, bike, _ in CASES if bike.sequence)
    name = bike.sequence[0].circuit
    made = asked(bike, name)
    wanted = [step.screw for step in bike.sequence if step.circuit == name]
    assert [point.at for point in made.points] == wanted
    assert {point.posture for point in made.points} == {
        step.posture for step in bike.sequence if step.circuit == name
    }
    assert "manual" in made.order.reason
