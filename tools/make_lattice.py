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


def bernoulli_2(x: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """The second Bernoulli polynomial."""
    return x * x - x + 1.0 / 6.0


def generating_vector(points: int, dimensions: int) -> list[int]:
    """Choose each component so that P2 of the lattice so far is least.

    A component and its mirror image are perfectly correlated, so both are used up
    at once.
    """
    odd = np.arange(1, points, 2)
    index = np.arange(points)
    omega = 2.0 * math.pi**2 * bernoulli_2(np.arange(points) / points)
    table = omega[np.outer(odd, index) % points]
    product = np.ones(points)
    chosen: list[int] = []
    for dimension in range(dimensions):
        weight = 1.0 / (1.0 + dimension) ** 1.2
        scores = (1.0 + weight * table) @ product
        if dimension == 0:
            best = 0
        else:
            taken = {*chosen, *(points - z for z in chosen)}
            scores[np.isin(odd, list(taken))] = np.inf
            best = int(np.argmin(scores))
        chosen.append(int(odd[best]))
        product = product * (1.0 + weight * table[best])
    return chosen


if __name__ == "__main__":
    sys.stdout.write(f"{generating_vector(POINTS, DIMENSIONS)}\n")
