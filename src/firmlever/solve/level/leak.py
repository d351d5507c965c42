# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whether fluid has gone that nothing explains: a steady loss fitted over all looks."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# below this a loss is left alone: seals weep a film and reservoirs breathe (judgement)
TOLERATED_M3 = 0.3e-6
# a leak is called likely at this chance; so many looks so many tries, shared among them
SURE, PERHAPS = 0.975, 0.9
# what must lie on the right side for a chance of SURE, and nineteen times in twenty
_SURE_TAIL, _SEEN_TAIL = 1.0 - SURE, 0.05


@dataclass(frozen=True, slots=True)
class Loss:
    """What is gone, one value a draw (m3), and the chances of more than is tolerated."""

    gone_m3: Array

    @property
    def chance_gone(self) -> float:
        """Return the chance that more has gone than is tolerated."""
        return float(np.mean(self.gone_m3 > TOLERATED_M3))

    @property
    def chance_rose(self) -> float:
        """Return the chance that as much has come in."""
        return float(np.mean(self.gone_m3 < -TOLERATED_M3))

    @property
    def would_see_m3(self) -> float:
        """Return the loss that would be called likely nineteen times in twenty.

        The draws scatter about the loss as readings would about it.
        """
        ends = np.quantile(self.gone_m3, (0.5, _SURE_TAIL, _SEEN_TAIL))
        return TOLERATED_M3 + float(2.0 * ends[0] - ends[1] - ends[2])


def steady(by_look: Array, days: Array) -> Array:
    """Return what a steady change comes to from the first look to the last, in each draw.

    ``by_look`` holds what has changed since the first look, one column a look, ``days``
    when that was. It is the straight line with the least squares: each look is out by as
    much as any other, the first as well. Weights taken from how the draws scatter would
    favour small changes, as an error of scale grows with the change.
    """
    times = days / days[-1] - np.mean(days / days[-1])
    fitted: Array = by_look @ times / float(times @ times)
    return fitted


def is_sure(chance: float, tries: int) -> bool:
    """Say whether a chance is enough when so many were looked at."""
    return chance > 1.0 - _SURE_TAIL / tries
