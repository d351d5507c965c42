# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Levers that are held: relaxing, cooling and leaking ones, written apart from the fitted model.

Creep here is a power of time, not a logarithm; settling has two time constants; cooling slows
down as the brake nears the workshop's warmth; the hand drifts while it holds.
"""

import math
from enum import StrEnum

import numpy as np

from firmlever.domain.lever import Hold, Pace
from firmlever.solve.lever.hold import lever_m_k
from laws.lever_bench import skerry_front

MINUTE = tuple(float(second) for second in range(0, 61, 5))
MM_K = 1e3 * lever_m_k(skerry_front())


class Fate(StrEnum):
    """What a held lever does beside creeping."""

    RELAXING = "relaxing"
    COOLING = "cooling"
    LEAKING = "leaking"


def hold(
    fate: Fate,
    rng: np.random.Generator,
    *,
    sink_mm_min: float = 2.0,
    ruler_mm: float = 1.0,
    seconds: tuple[float, ...] = MINUTE,
) -> Hold:
    """Read one hold at about 100 N."""
    crept_mm = abs(rng.normal(0.0, 0.6))
    quick_mm, slow_mm = abs(rng.normal(0.0, 0.3, 2))
    power = rng.uniform(0.1, 0.3)
    cooling_k_min = rng.uniform(0.1, 0.5) if fate is Fate.COOLING else rng.uniform(-0.1, 0.1)
    start_mm = rng.uniform(25.0, 45.0)
    wander = rng.normal(0.0, 0.1, len(seconds))
    travels = []
    for second, off_mm in zip(seconds, wander, strict=True):
        exact = start_mm + crept_mm * ((second + 1.0) ** power - 1.0) / (61.0**power - 1.0)
        exact += quick_mm * (1.0 - math.exp(-second / 4.0))
        exact += slow_mm * (1.0 - math.exp(-second / 20.0))
        exact += MM_K * cooling_k_min * 12.0 * (1.0 - math.exp(-second / 720.0))
        exact += sink_mm_min * second / 60.0 if fate is Fate.LEAKING else 0.0
        exact += off_mm + rng.normal(0.0, 0.2 * ruler_mm)
        travels.append(round(exact / ruler_mm) * ruler_mm)
    return Hold(Pace.SLOW, 100.0, seconds, tuple(travels))
