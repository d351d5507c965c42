# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which measurement would narrow a result most, read off the draws themselves."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_BINS = 24


def first_order_shares(result: Array, columns: Sequence[Array]) -> tuple[float, ...]:
    """Return for each column of uniform draws the share of the variance it explains alone.

    The first-order Sobol index, estimated from given data: the variance of the means
    over equal bins of the input, less what the scatter inside the bins gives them by
    chance (Plischke, Borgonovo and Smith 2013). Inputs without effect come out near zero.
    """
    total = float(np.var(result))
    if total <= 0.0:
        return (0.0,) * len(columns)
    centred = result - np.mean(result)
    return tuple(_share(centred, column, total) for column in columns)


def _share(centred: Array, column: Array, total: float) -> float:
    bins = np.minimum((column * _BINS).astype(np.intp), _BINS - 1)
    counts = np.bincount(bins, minlength=_BINS)
    sums = np.bincount(bins, weights=centred, minlength=_BINS)
    between = float(np.sum(sums**2 / np.maximum(counts, 1)) / centred.size)
    within = (total - between) / (centred.size - _BINS)
    return max(0.0, (between - (_BINS - 1) * within) / total)
