# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whether fluid has gone that nothing explains: a steady loss fitted over all looks."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# below this a loss is left alone: seals weep a film and reservoirs breathe (judgement)
TOLERATED_M3 = 0.3e-6
# a leak is called likely at this chance (judgement)
SURE, PERHAPS = 0.95, 0.9
# what may lie on the wrong side for a chance of SURE, and in twenty readings of one leak
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


def is_sure(whole: float, stretches: Sequence[float]) -> bool:
    """Say whether the chances of the whole span or of any stretch of it are enough.

    A false alarm may come of either: with several stretches the whole has half of what is
    allowed, and they share the other half.
    """
    if len(stretches) < 2:
        return whole > SURE
    allowed = _SURE_TAIL / 2.0
    return whole > 1.0 - allowed or max(stretches) > 1.0 - allowed / len(stretches)
