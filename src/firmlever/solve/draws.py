# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Evenly spread draws of uncertain quantities.

A randomly shifted rank-1 lattice: every column visits each of its strata once,
and pairs of columns fill their square evenly, so that a few thousand draws give
percentiles as steady as many more random ones. The generating vector comes from
``tools/make_lattice.py`` (derived).
"""

import math

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_NORMAL_95 = 1.6448536269514722
LOG_ABOVE_RATIO = 2.0
_LATTICE_POINTS = 2048
_GENERATING_VECTOR = (
    1,
    791,
    213,
    957,
    843,
    865,
    129,
    801,
    109,
    563,
    761,
    389,
    771,
    729,
    647,
    833,
    57,
    491,
    305,
    905,
    781,
    357,
    1019,
    657,
    853,
    471,
    615,
    709,
    347,
    15,
    739,
    947,
    439,
    501,
    161,
    201,
    925,
    625,
    37,
    699,
    337,
    25,
    637,
    749,
    937,
    449,
    149,
    873,
    813,
    573,
    935,
    273,
    27,
    35,
    397,
    759,
    927,
    565,
    803,
    441,
    283,
    379,
    17,
    317,
    617,
    255,
    917,
    193,
    855,
    493,
    893,
    431,
    955,
    293,
    655,
    1017,
    669,
    717,
    117,
    183,
    121,
    783,
    59,
    303,
    365,
    65,
    427,
    535,
    851,
    835,
    251,
    375,
    737,
    949,
    525,
    623,
)


def lattice(count: int, dimensions: int, seed: int) -> Array:
    """Return ``count`` points of the unit cube, one row each, strictly inside it.

    ``count`` is a power of two up to 2048; columns beyond the generating vector
    are independent random permutations of the strata.
    """
    rng = np.random.default_rng(seed)
    shift = rng.random(_LATTICE_POINTS)[:dimensions]
    index = np.arange(count)[:, None]
    known = np.array(_GENERATING_VECTOR[:dimensions])
    points = (index * known / count + shift[: known.size]) % 1.0
    extra = dimensions - known.size
    if extra > 0:
        strata = rng.permuted(np.tile(np.arange(count), (extra, 1)), axis=1).T
        points = np.hstack([points, (strata + rng.random((count, extra))) / count])
    edge = 0.5 / count**2
    inside: Array = np.clip(points, edge, 1.0 - edge)
    return inside


def from_uniform(
    first: float, last: float, u: Array, bounds: tuple[float, float], *, can_be_log: bool
) -> Array:
    """Turn uniform numbers into values of a range, cut at its physical bounds.

    The values are normal, or log-normal when the ends differ by more than a factor
    of two (never on a scale whose zero is arbitrary). The ends are the 5 and 95 %
    points; beyond the bounds nothing is drawn.
    """
    low, high = bounds
    if can_be_log and first > 0 and last / first > LOG_ABOVE_RATIO:
        floor = math.log(low) if low > 0 else -math.inf
        logs = _cut_normal(math.log(first), math.log(last), u, floor, math.log(high))
        drawn: Array = np.exp(logs)
        return drawn
    return _cut_normal(first, last, u, low, high)


def _cut_normal(first: float, last: float, u: Array, low: float, high: float) -> Array:
    from scipy.special import ndtr, ndtri

    middle = (first + last) / 2.0
    spread = (last - first) / (2.0 * _NORMAL_95)
    floor, ceiling = ndtr((low - middle) / spread), ndtr((high - middle) / spread)
    drawn: Array = middle + spread * ndtri(floor + u * (ceiling - floor))
    return drawn
