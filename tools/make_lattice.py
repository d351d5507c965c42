# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Build the generating vector of the rank-1 lattice in firmlever.solve.draws.

Component by component, minimising the worst-case error P2 of the weighted
Korobov space (Sloan and Joe, Lattice Methods for Multiple Integration, 1994).
Run: python tools/make_lattice.py
"""

import math
import sys

import numpy as np
import numpy.typing as npt

POINTS = 2048
DIMENSIONS = 96
MOST_CORRELATED = 0.06
HARMONICS = 12

Scores = npt.NDArray[np.float64]


def bernoulli_2(x: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """The second Bernoulli polynomial."""
    return x * x - x + 1.0 / 6.0


def correlation_bound(candidates: npt.NDArray[np.int64], chosen: int, points: int) -> Scores:
    """Bound the correlation of each candidate's column with a chosen one, at any shift.

    Two columns move together when a small multiple of one is a small multiple of the
    other, modulo the number of points; the largest term of their Fourier series rules.
    """
    multiple = np.arange(1, HARMONICS + 1)
    inverse = np.array([pow(int(candidate), -1, points) for candidate in candidates])
    other = (multiple[None, :] * chosen * inverse[:, None]) % points
    other = np.maximum(np.minimum(other, points - other), 1)
    bound: Scores = 6.0 / math.pi**2 * np.max(1.0 / (multiple * other), axis=1)
    return bound


def generating_vector(points: int, dimensions: int) -> list[int]:
    """Choose each component so that P2 of the lattice so far is least, and none echoes."""
    odd = np.arange(1, points, 2)
    index = np.arange(points)
    omega = 2.0 * math.pi**2 * bernoulli_2(np.arange(points) / points)
    table = omega[np.outer(odd, index) % points]
    product = np.ones(points)
    echoes = np.zeros(odd.size, dtype=bool)
    chosen: list[int] = []
    for dimension in range(dimensions):
        weight = 1.0 / (1.0 + dimension) ** 0.8
        scores = np.where(echoes, np.inf, (1.0 + weight * table) @ product)
        best = int(np.argmin(scores)) if chosen else 0
        chosen.append(int(odd[best]))
        product = product * (1.0 + weight * table[best])
        echoes |= correlation_bound(odd, chosen[-1], points) > MOST_CORRELATED
    return chosen


if __name__ == "__main__":
    sys.stdout.write(f"{generating_vector(POINTS, DIMENSIONS)}\n")
