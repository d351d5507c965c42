# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which measurement would narrow a result most, read off the draws themselves."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from firmlever.solve.inputs import Input

Array = NDArray[np.float64]

_BINS = 24


def first_order_shares(result: Array, inputs: Mapping[str, Input]) -> dict[str, float]:
    """Return for each input the share of the result's variance it explains alone.

    The first-order Sobol index, estimated from given data: the variance of the means
    over equal bins of the input, less what the scatter inside the bins gives them by
    chance (Plischke, Borgonovo and Smith 2013). Inputs without effect come out near zero.
    """
    names = list(inputs)
    total = float(np.var(result))
    if total <= 0.0 or not names:
        return dict.fromkeys(names, 0.0)
    centred = result - np.mean(result)
    shares = {}
    for name in names:
        bins = np.minimum((inputs[name].u * _BINS).astype(np.intp), _BINS - 1)
        counts = np.bincount(bins, minlength=_BINS)
        sums = np.bincount(bins, weights=centred, minlength=_BINS)
        between = float(np.sum(sums**2 / np.maximum(counts, 1)) / result.size)
        within = (total - between) / (result.size - _BINS)
        shares[name] = max(0.0, (between - (_BINS - 1) * within) / total)
    return shares
