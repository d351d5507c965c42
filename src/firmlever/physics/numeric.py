# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a physics function takes and returns, and the guards against the impossible.

A *numeric* is a float or a float array; arguments broadcast against each other. A
NaN passes every guard and ends up in the result, so one unknown draw spoils no other.
"""

import numpy as np
from numpy.typing import NDArray

from firmlever.errors import OutOfRangeError

Numeric = float | NDArray[np.float64]


def require_positive(**quantities: Numeric) -> None:
    """Refuse quantities that are zero or less anywhere.

    Raises
    ------
    OutOfRangeError
        Naming the first quantity that is not above zero.

    Examples
    --------
    >>> require_positive(bore_m=0.0032)
    >>> require_positive(bore_m=0.0)
    Traceback (most recent call last):
    firmlever.errors.OutOfRangeError: bore_m must be above zero
    """
    for name, value in quantities.items():
        if np.any(value <= 0):
            raise OutOfRangeError(name, "above zero")


def require_not_negative(**quantities: Numeric) -> None:
    """Refuse quantities that are below zero anywhere.

    Raises
    ------
    OutOfRangeError
        Naming the first quantity that is below zero.

    Examples
    --------
    >>> require_not_negative(length_m=0.0)
    >>> require_not_negative(length_m=-1.0)
    Traceback (most recent call last):
    firmlever.errors.OutOfRangeError: length_m must be zero or above
    """
    for name, value in quantities.items():
        if np.any(value < 0):
            raise OutOfRangeError(name, "zero or above")
