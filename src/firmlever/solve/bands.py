# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From draws to bands."""

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.quantity import Band, CountBand
from firmlever.units import from_si

_POINTS = (0.05, 0.5, 0.95)
# a count a hair above a whole number is that number, not one more
SAME_COUNT = 1e-6


def band(draws: NDArray[np.float64]) -> Band:
    """Return the 5, 50 and 95 % points of the draws."""
    return bands(draws[:, None])[0]


def bands(draws: NDArray[np.float64]) -> tuple[Band, ...]:
    """Return the band of each column."""
    points = np.quantile(draws, _POINTS, axis=0)
    return tuple(Band(*(float(point) for point in column)) for column in points.T)


def ml_band(volume_m3: NDArray[np.float64]) -> Band:
    """Return the same points of volumes, in millilitres."""
    return band(from_si(volume_m3, "ml"))


def count_up(draws: NDArray[np.float64]) -> CountBand:
    """Return a band of counts that are too many rather than too few."""
    return _counts(draws, lambda value: math.ceil(value - SAME_COUNT))


def count_down(draws: NDArray[np.float64]) -> CountBand:
    """Return a band of counts that are too few rather than too many."""
    return _counts(draws, lambda value: math.floor(value + SAME_COUNT))


def _counts(draws: NDArray[np.float64], whole: Callable[[float], int]) -> CountBand:
    exact = band(draws)
    return CountBand(whole(exact.p05), whole(exact.p50), whole(exact.p95))
