# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every conversion between display units and SI, and every number-to-text rule."""

from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numeric = TypeVar("Numeric", float, NDArray[np.float64])
else:
    Numeric = TypeVar("Numeric")

# unit: (factor, offset); SI value = display value * factor + offset
_TO_SI: dict[str, tuple[float, float]] = {
    "": (1.0, 0.0),
    "mm": (1e-3, 0.0),
    "mm2": (1e-6, 0.0),
    "ml": (1e-6, 0.0),
    "ml/s": (1e-6, 0.0),
    "ml/cm2": (1e-2, 0.0),
    "kg": (1.0, 0.0),
    "s": (1.0, 0.0),
    "min": (60.0, 0.0),
    "N": (1.0, 0.0),
    "mN/m": (1e-3, 0.0),
    "kPa": (1e3, 0.0),
    "GPa": (1e9, 0.0),
    "mm/100N": (1e-5, 0.0),
    "mm3/(m MPa)": (1e-15, 0.0),
    "bar": (1e5, 0.0),
    "mmHg": (133.322387415, 0.0),
    "degC": (1.0, 273.15),
    "mm2/s": (1e-6, 0.0),
    "kg/m3": (1.0, 0.0),
    "1/K": (1.0, 0.0),
    "m2/s": (1.0, 0.0),
}


def to_si(value: Numeric, unit: str) -> Numeric:
    """Turn a value in a display unit into SI.

    >>> to_si(20.0, "degC")
    293.15
    """
    factor, offset = _TO_SI[unit]
    return value * factor + offset


def from_si(value: Numeric, unit: str) -> Numeric:
    """Turn an SI value into a display unit.

    >>> from_si(3.0e-6, "ml")
    3.0
    """
    factor, offset = _TO_SI[unit]
    return (value - offset) / factor


def significant(value: float, digits: int = 4) -> float:
    """Round to a number of significant digits.

    >>> significant(0.123456)
    0.1235
    >>> significant(123456.0)
    123500.0
    """
    return float(f"{value:.{digits}g}")
