# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A quantity may be known exactly, known as a range, or left out."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Exact:
    """A value taken as it stands."""

    value: float


@dataclass(frozen=True, slots=True)
class Between:
    """A range: ``low`` and ``high`` are the 5 and 95 % points.

    The spread is normal, or log-normal when high / low is above 2.
    """

    low: float
    high: float


Quantity = Exact | Between


@dataclass(frozen=True, slots=True)
class QuantitySpec:
    """What one key of a circuit file means and what it can possibly be.

    ``low`` and ``high`` are physical bounds in ``unit``, not usual values. ``words``
    names the quantity at the bench and ``measure`` says how to find it out.
    """

    kind: str
    key: str
    unit: str
    low: float
    high: float
    words: str
    measure: str


@dataclass(frozen=True, slots=True)
class Band:
    """The 5, 50 and 95 % points of a result."""

    p05: float
    p50: float
    p95: float


@dataclass(frozen=True, slots=True)
class CountBand:
    """A band of whole numbers, each rounded away from harm."""

    p05: int
    p50: int
    p95: int
