# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the tube may show though it was not in the circuit: froth, and gas drawn by suction."""

import math

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.plan import TubeFigures
from firmlever.domain.quantity import Band
from firmlever.domain.tables import FluidGrade, Method, Technique
from firmlever.physics.bubbles import bubble_growth, dirty_bubble_rise_m_s, gas_released
from firmlever.physics.drive import SEA_LEVEL_PA
from firmlever.solve.bands import SAME_COUNT, band
from firmlever.solve.hydraulics import Fluid
from firmlever.units import to_si

# froth has bubbles down to this size; a caliper and its tube are about so high (judgement)
_FROTH_M = 1e-4
_RISE_M = 0.3
_MINUTE_S = 60.0
_PARTS_ML = 100.0


def tube_figures(technique: Technique, grade: FluidGrade, fluid: Fluid) -> TubeFigures:
    """Return how long froth needs to rise, and what suction draws out of sound fluid."""
    return TubeFigures(_rest_minutes(fluid), _gas_ml_per_100_ml(technique, grade))


def _rest_minutes(fluid: Fluid) -> int:
    """Return the minutes at the slow end, so that what still bubbles after them is no froth."""
    rise_m_s = dirty_bubble_rise_m_s(_FROTH_M, fluid.density_kg_m3, fluid.viscosity_pa_s)
    minutes: NDArray[np.float64] = np.asarray(_RISE_M / rise_m_s / _MINUTE_S)
    return math.ceil(band(minutes).p95 - SAME_COUNT)


def _gas_ml_per_100_ml(technique: Technique, grade: FluidGrade) -> Band | None:
    if technique.method is not Method.VACUUM or technique.drive_kpa is None:
        return None
    held = _ends_and_middle(grade.air_held)
    suction_pa = to_si(_ends_and_middle(technique.drive_kpa), "kPa")
    pressure_pa = SEA_LEVEL_PA - suction_pa
    gas = gas_released(held, pressure_pa, SEA_LEVEL_PA) * bubble_growth(pressure_pa, SEA_LEVEL_PA)
    return Band(*(float(_PARTS_ML * one) for one in np.asarray(gas)))


def _ends_and_middle(ends: tuple[float, float]) -> NDArray[np.float64]:
    low, high = ends
    return np.array([low, (low + high) / 2.0, high])
