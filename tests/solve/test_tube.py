# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the tube may show though it was not in the circuit."""

import numpy as np
import pytest

from firmlever.domain.tables import FluidBase, Method
from firmlever.solve.hydraulics import Fluid
from firmlever.solve.tube import tube_figures
from solve.machines import WORKSHOP, asked, tourer

GRADES = {grade.name: grade for grade in WORKSHOP.tables.grades()}
# the first way of a method is its usual one
WAYS = {way.method: way for way in reversed(WORKSHOP.tables.techniques())}


def fluid(*viscosities_mm2_s: float) -> Fluid:
    viscosity = np.array(viscosities_mm2_s) * 1e-6
    return Fluid(np.full(viscosity.shape, 1050.0), viscosity)


def test_froth_rises_as_slowly_as_the_note_on_bubbles_has_it() -> None:
    # derived: 0.1 mm in 18 mPa s rises 0.317 mm/s, so 0.3 m takes 946 s, 15.8 minutes
    found = tube_figures(WAYS[Method.LEVER], GRADES["DOT 4"], fluid(18.0e3 / 1050.0))
    assert (found.rest_minutes, found.gas_ml_per_100_ml) == (16, None)


def test_the_rest_is_that_of_the_thickest_the_fluid_may_be() -> None:
    thin, thick = (
        tube_figures(WAYS[Method.LEVER], GRADES["DOT 4"], fluid(one)).rest_minutes
        for one in (15.0, 30.0)
    )
    both = tube_figures(WAYS[Method.LEVER], GRADES["DOT 4"], fluid(*[15.0] * 9, *[30.0] * 11))
    assert thin < both.rest_minutes == thick


def test_in_the_cold_froth_needs_longer() -> None:
    minutes = [
        asked(tourer(), "front", workshop_degc=degc).tube.rest_minutes for degc in (5.0, 20.0, 30.0)
    ]
    assert minutes == sorted(minutes, reverse=True)
    assert minutes[0] > 1.5 * minutes[-1]


@pytest.mark.parametrize(
    ("grade", "ends"),
    [
        # by hand, Henry's law: held x (1 - p/101.325) x 101.325/p in ml of 100 ml, p being
        # 101.325 kPa less 34 and 51 kPa; held as sae-j1705-2007 has it, 3-7 and 13-19 %
        ("DOT 4", (1.515, 7.094)),
        ("DOT 5", (6.565, 19.25)),
    ],
)
def test_suction_draws_gas_by_henrys_law(grade: str, ends: tuple[float, float]) -> None:
    gas = tube_figures(WAYS[Method.VACUUM], GRADES[grade], fluid(15.0)).gas_ml_per_100_ml
    assert gas is not None
    assert (gas.p05, gas.p95) == pytest.approx(ends, rel=1e-3)
    assert gas.p05 < gas.p50 < gas.p95


def test_every_silicone_holds_more_air_than_every_glycol_ether() -> None:
    held = {
        base: [grade.air_held for grade in GRADES.values() if grade.base is base]
        for base in FluidBase
    }
    assert max(high for _, high in held[FluidBase.GLYCOL]) < min(
        low for low, _ in held[FluidBase.SILICONE]
    )


def test_what_stays_in_each_place_adds_up_to_the_whole() -> None:
    left = asked(tourer(), "front").left_old
    # medians of parts do not add up exactly; they come near
    assert sum(one.p50 for one in left.of_whole.values()) == pytest.approx(left.whole.p50, rel=0.1)
    assert left.of_whole["abs unit"].p50 < left.parts["abs unit"].p50
