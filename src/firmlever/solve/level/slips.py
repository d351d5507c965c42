# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How far readings may be out, as columns of draws handed out one by one."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# an error is given as what nine in ten readings keep to
_NORMAL_95 = 1.6448536269514722


@dataclass(slots=True)
class Slips:
    """Hands out standard normal columns; ``columns`` keeps them by what was read.

    A finer reading of what they stand for would narrow the result.
    """

    points: Array
    columns: dict[str, list[Array]] = field(default_factory=dict)
    used: int = 0

    def normal(self, of: str) -> Array:
        """Return a column whose 5 and 95 % points are -1 and 1."""
        from scipy.special import ndtri

        u = self.uniform(of)
        drawn: Array = ndtri(u) / _NORMAL_95
        return drawn

    def uniform(self, of: str) -> Array:
        """Return a column of uniform numbers."""
        u = self.points[:, self.used]
        self.used += 1
        self.columns.setdefault(of, []).append(u)
        return u
