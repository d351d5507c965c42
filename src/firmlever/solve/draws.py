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
    591,
    957,
    107,
    177,
    337,
    405,
    839,
    57,
    439,
    375,
    693,
    211,
    857,
    1007,
    609,
    659,
    505,
    157,
    555,
    459,
    641,
    223,
    73,
    475,
    975,
    525,
    191,
    807,
    873,
    541,
    241,
    257,
    909,
    709,
    357,
    775,
    259,
    441,
    559,
    41,
    309,
    25,
    91,
    143,
    739,
    825,
    509,
    207,
    493,
    891,
    607,
    759,
    9,
    225,
    723,
    707,
    875,
    243,
    557,
    491,
    77,
    43,
    341,
    409,
    359,
    907,
    741,
    623,
    575,
    989,
    941,
    141,
    725,
    93,
    507,
    457,
    773,
    7,
    889,
    757,
    209,
    275,
    573,
    291,
    159,
    991,
    393,
    425,
    343,
    391,
    625,
    643,
    293,
    125,
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
