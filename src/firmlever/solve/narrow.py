# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which measurement would narrow a result most, read off the draws themselves."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_DEGREE = 3


def first_order_shares(result: Array, columns: Sequence[Array]) -> tuple[float, ...]:
    """Return for each column of uniform draws the share of the variance it explains alone.

    The first-order Sobol index, estimated from given data as the squared correlations
    with the first Legendre polynomials of the column (Sudret 2008), less what chance
    gives. It holds for results that rise, fall or bend smoothly with an input; finer
    wiggles are left out on purpose, since a lattice repeats them in other columns.
    """
    total = float(np.var(result))
    if total <= 0.0 or not columns:
        return (0.0,) * len(columns)
    centred = result - np.mean(result)
    ruler = 2.0 * np.column_stack(columns) - 1.0
    explained = np.zeros(len(columns))
    for degree in range(1, _DEGREE + 1):
        only = np.eye(_DEGREE + 1)[degree]
        shape = np.polynomial.legendre.legval(ruler, only)
        explained += (2 * degree + 1) * (centred @ shape / centred.size) ** 2
    by_chance = _DEGREE / centred.size
    return tuple(float(max(0.0, share - by_chance)) for share in explained / total)
