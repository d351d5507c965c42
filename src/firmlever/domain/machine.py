# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Machines as they are kept: the text of a circuit file and its history's number."""

from dataclasses import dataclass
from datetime import datetime

from firmlever.domain.circuit import BikeClass, Layout
from firmlever.domain.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Machine:
    """One kept machine.

    ``text`` is its circuit file to the last byte; ``revision`` grows by one with each
    change, and whoever changes it says which one was read.
    """

    id: str
    name: str
    bike_class: BikeClass
    text: str
    revision: int
    made_at: datetime
    changed_at: datetime
    is_demo: bool = False


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A plan that somebody wanted to keep, as the document it was."""

    id: str
    machine_id: str
    machine_revision: int
    circuit: str
    made_at: datetime
    document: str


@dataclass(frozen=True, slots=True)
class Change:
    """One value of a machine to set; None forgets it.

    ``key`` is written as for `firmlever set`; a list of sizes goes with ``pistons_mm``.
    """

    key: str
    value: Quantity | tuple[float, ...] | None


@dataclass(frozen=True, slots=True)
class Outline:
    """What a person knows of a machine by looking at it; None is "don't know".

    ``front_discs`` is 0, 1 or 2; ``fork`` says how the line to two calipers divides.
    """

    name: str
    bike_class: BikeClass
    front_discs: int | None = None
    front_layout: Layout | None = None
    fork: str | None = None
    abs_unit: bool | None = None
    rear_disc: bool | None = None
    hydraulic_clutch: bool | None = None
    fluid: str | None = None


FORKS = ("splitter", "double banjo", "caliper to caliper")


@dataclass(frozen=True, slots=True)
class Question:
    """One thing worth knowing about a circuit, and how to find it out.

    ``low`` and ``high`` are what it can be at all, ``usual_low`` and ``usual_high`` what
    it usually is (None where nothing is usual). ``picture`` names the small drawing that
    shows where to look. ``per_cent`` is the share of the headline's variance that the
    answer removes.
    """

    key: str
    also: tuple[str, ...]
    words: str
    measure: str
    unit: str
    low: float
    high: float
    usual_low: float | None
    usual_high: float | None
    picture: str
    per_cent: float
    given: Quantity | tuple[float, ...] | None
