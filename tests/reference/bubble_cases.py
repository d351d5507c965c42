# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Small bubbles in brake fluid (1050 kg/m3, 18 mPa s), and gas under suction."""

from collections.abc import Callable

import numpy as np
from scipy.optimize import brentq

from firmlever.physics.bubbles import (
    bubble_growth,
    clean_bubble_rise_m_s,
    dirty_bubble_rise_m_s,
    gas_released,
)
from firmlever.physics.numeric import Numeric
from reference.cases import Case, Kind

RHO, MU, AIR_PA = 1050.0, 0.018, 101325.0
# diameter in mm: clean, dirty, in mm/s
_RISE = {0.1: (0.477, 0.317), 0.3: (4.29, 2.81), 0.5: (11.9, 7.55), 1.0: (47.7, 26.4)}
# gauge in bar: released in per cent, bubbles at that pressure in per cent, growth
_SUCTION = {
    -0.30: (1.48, 2.1, 1.42),
    -0.50: (2.47, 4.9, 1.97),
    -0.60: (2.96, 7.3, 2.45),
    -0.70: (3.45, 11.2, 3.23),
    -0.85: (4.19, 26.0, 6.21),
}


def rise_time_s(height_m: float, diameter_m: float) -> Numeric:
    """The longest that a bubble takes to rise so far."""
    return height_m / dirty_bubble_rise_m_s(diameter_m, RHO, MU)


def bubbles_under_suction(dissolved: Numeric, pressure_pa: Numeric) -> Numeric:
    """Gas set free, at the size it has there."""
    return gas_released(dissolved, pressure_pa, AIR_PA) * bubble_growth(pressure_pa, AIR_PA)


def _balance(diameter_m: float) -> Callable[[], float]:
    """Weight displaced against drag, by another way to the root (independent)."""

    def excess_n(speed_m_s: float) -> float:
        reynolds = RHO * speed_m_s * diameter_m / MU
        drag_n = 3.0 * np.pi * MU * diameter_m * speed_m_s * (1.0 + 0.15 * reynolds**0.687)
        return float(np.pi / 6.0 * diameter_m**3 * RHO * 9.80665 - drag_n)

    return lambda: float(brentq(excess_n, 1e-9, 1.0, xtol=1e-15))


def _fluid(diameter_mm: float) -> dict[str, object]:
    return {"diameter_m": diameter_mm * 1e-3, "density_kg_m3": RHO, "viscosity_pa_s": MU}


_SPEEDS = tuple(
    Case(
        function,
        _fluid(diameter),
        speed * 1e-3,
        Kind.DERIVED,
        "derived",
        "Stokes with a free and with a stiff skin, worked out by hand to three figures",
        rel=3e-3,
    )
    for diameter, (clean, dirty) in _RISE.items()
    for function, speed in ((clean_bubble_rise_m_s, clean), (dirty_bubble_rise_m_s, dirty))
)

_BALANCES = tuple(
    Case(
        dirty_bubble_rise_m_s,
        _fluid(diameter),
        _balance(diameter * 1e-3),
        Kind.INDEPENDENT,
        "lib-scipy",
        "root of buoyancy against drag by brentq",
        rel=1e-9,
    )
    for diameter in (0.05, 0.3, 1.0, 2.0)
)

_TIMES = tuple(
    Case(
        rise_time_s,
        {"height_m": 0.3, "diameter_m": diameter * 1e-3},
        seconds,
        Kind.DERIVED,
        "derived",
        "0.3 m over the slow bound: why froth from pumping wants a quarter of an hour",
        abs=0.51,
    )
    for diameter, seconds in ((0.1, 946.0), (0.3, 107.0), (1.0, 11.0))
)

_GAS = tuple(
    case
    for gauge, (released, there, growth) in _SUCTION.items()
    for case in (
        Case(
            gas_released,
            {"dissolved": 0.05, "pressure_pa": AIR_PA + gauge * 1e5, "atmosphere_pa": AIR_PA},
            released / 100.0,
            Kind.DERIVED,
            "derived",
            "Henry's law by hand, 5 per cent by volume dissolved",
            abs=5.1e-5,
        ),
        Case(
            bubbles_under_suction,
            {"dissolved": 0.05, "pressure_pa": AIR_PA + gauge * 1e5},
            there / 100.0,
            Kind.DERIVED,
            "derived",
            "the same at the pressure it is set free at",
            abs=5.1e-4,
        ),
        Case(
            bubble_growth,
            {"pressure_pa": AIR_PA + gauge * 1e5, "atmosphere_pa": AIR_PA},
            growth,
            Kind.DERIVED,
            "definition",
            "pressures divided",
            abs=5.1e-3,
        ),
    )
)

_NOTHING = (
    Case(
        gas_released,
        {"dissolved": 0.05, "pressure_pa": 2.0 * AIR_PA, "atmosphere_pa": AIR_PA},
        0.0,
        Kind.DERIVED,
        "derived",
        "pressed fluid lets nothing go",
        abs=1e-15,
    ),
)

CASES = (*_SPEEDS, *_BALANCES, *_TIMES, *_GAS, *_NOTHING)
