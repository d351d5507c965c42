# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Readings at a lever: force against travel, and what they say."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from firmlever.domain.plan import Assumed
from firmlever.domain.quantity import Band


class SetKind(StrEnum):
    """How a set of readings was taken."""

    FIRST = "first"
    PUMPED = "pumped"
    WEDGED = "wedged"


class Moment(StrEnum):
    """Before or after the work; a test taken once is before."""

    BEFORE = "before"
    AFTER = "after"


@dataclass(frozen=True, slots=True)
class ReadingSet:
    """One run of readings with the force going up only.

    ``force_n`` is what the scale shows, hooked 50 mm in from the end of the lever;
    ``travel_mm`` is how far that point has come from where it rests.
    """

    kind: SetKind
    force_n: tuple[float, ...]
    travel_mm: tuple[float, ...]
    moment: Moment = Moment.BEFORE


class Pace(StrEnum):
    """How the lever was pulled before it was held."""

    SLOW = "slow"
    FAST = "fast"


@dataclass(frozen=True, slots=True)
class Hold:
    """Readings against time at one force."""

    pace: Pace
    force_n: float
    seconds: tuple[float, ...]
    travel_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Readings:
    """All that was read at one lever."""

    sets: tuple[ReadingSet, ...]
    holds: tuple[Hold, ...] = ()


@dataclass(frozen=True, slots=True)
class Held:
    """What holds of one pace say.

    ``sink_mm_min`` is the steady part, at the lever; ``sink_ml_min`` the fluid lost for it;
    ``settled_mm`` what came to rest, by the end of the longest. ``sinks`` where even the low
    end of the band is a sink.
    """

    pace: Pace
    at_n: float
    seconds: float
    sink_mm_min: Band
    sink_ml_min: Band
    settled_mm: Band
    sinks: bool


@dataclass(frozen=True, slots=True)
class TravelShare:
    """What a part of the travel goes into, at one force."""

    part: str
    words: str
    travel_mm: Band


@dataclass(frozen=True, slots=True)
class NextSet:
    """A further set of readings and how much narrower it should make the band of the air."""

    kind: SetKind
    words: str
    air_width_ml: float


@dataclass(frozen=True, slots=True)
class LeverTest:
    """What the readings of one lever say.

    ``air_ml`` is air at the pressure around. ``left_ml`` is what went between before
    and after, None where only one of the two was read. ``together`` is the
    correlation of air and clearance: near -1 the readings know only their sum, which
    is ``air_and_clearance_ml``.
    """

    bike: str
    circuit: str
    on: date
    air_ml: Band
    air_after_ml: Band | None
    left_ml: Band | None
    clearance_ml: Band
    air_and_clearance_ml: Band
    together: float
    at_n: float
    budget: tuple[TravelShare, ...]
    holds: tuple[Held, ...]
    says: tuple[str, ...]
    cannot_tell: tuple[str, ...]
    next_sets: tuple[NextSet, ...]
    assumed: tuple[Assumed, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
