# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Seconds and top-ups, by hand."""

import numpy as np
import pytest

from firmlever.domain.circuit import BikeClass, Family, Part, PartKind
from firmlever.domain.tables import Basis, Prior
from firmlever.solve.hydraulics import Pace
from firmlever.solve.inputs import Inputs
from firmlever.solve.network import Pot
from firmlever.solve.supply import Supply
from firmlever.solve.times import refills_of_turns, seconds_in_all, seconds_of_turns

ML = 1e-6
FITTING_S, TOPPING_S, PREPARING_S = 100.0, 30.0, 900.0


def of(*values: float) -> np.ndarray:
    return np.array(values)


def inputs() -> Inputs:
    """One draw in the middle of ranges so narrow that it is known."""
    fixed = {"per_screw_s": FITTING_S, "topup_s": TOPPING_S, "prepare_s": PREPARING_S}
    rows = {
        ("work", key): [
            Prior(
                "work", key, "any", (), "s", value, value * 1.0001, Basis.JUDGEMENT, "judgement", ""
            )
        ]
        for key, value in fixed.items()
    }
    return Inputs(np.full((1, 8), 0.5), rows, Family.FRONT, BikeClass.NAKED)


def supply() -> Supply:
    """A pot of 30 ml at MAX and 10 at MIN."""
    pot = Part("pot", PartKind.RESERVOIR)
    return Supply(Pot(pot, of(30 * ML), of(10 * ML), of(1 * ML)))


def by_lever(stroke_ml: float, stroke_s: float) -> Pace:
    return Pace(of(stroke_ml * ML / stroke_s), of(stroke_ml * ML), of(stroke_s), 0.0)


def test_a_turn_is_fitting_strokes_and_top_ups() -> None:
    """By hand: 35 ml in strokes of 2 ml are 18 of 5 s; 20 ml are a filling."""
    (seconds,) = seconds_of_turns([of(35 * ML)], [by_lever(2.0, 5.0)], supply(), inputs())
    assert seconds == pytest.approx(FITTING_S + 18 * 5.0 + 1 * TOPPING_S, rel=1e-4)


def test_a_turn_of_just_so_many_strokes_takes_no_more() -> None:
    (seconds,) = seconds_of_turns(
        [of(3 * 1.1 * ML * (1 + 1e-15))], [by_lever(1.1, 5.0)], supply(), inputs()
    )
    assert seconds == pytest.approx(FITTING_S + 3 * 5.0, rel=1e-4)


def test_a_flow_takes_as_long_as_its_millilitres() -> None:
    (seconds,) = seconds_of_turns(
        [of(50 * ML)], [Pace(of(0.5 * ML), None, None, 0.0)], supply(), inputs()
    )
    assert seconds == pytest.approx(FITTING_S + 100.0 + 2 * TOPPING_S, rel=1e-4)


def test_a_filling_begun_at_one_screw_is_used_up_at_the_next() -> None:
    counts = refills_of_turns([of(15 * ML), of(15 * ML), of(30 * ML)], supply())
    assert [float(count[0]) for count in counts] == [0.0, 1.0, 2.0]


def test_the_whole_job_begins_with_preparing() -> None:
    whole = seconds_in_all([of(100.0), of(250.0)], inputs())
    assert whole == pytest.approx(PREPARING_S + 350.0, rel=1e-4)
