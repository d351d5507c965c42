# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Dated looks at the level and the pads, and what they say about wear and leaks."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from firmlever.domain.plan import Assumed, Narrow
from firmlever.domain.quantity import Band


class LevelMeasure(StrEnum):
    """How a level was read: content, share of the way from MIN to MAX, or depth below MAX."""

    CONTENT = "level_ml"
    SHARE = "level_share"
    BELOW_MAX = "below_max_mm"


class Stand(StrEnum):
    """How the machine stood while the level was read."""

    LEVEL = "level"
    SIDE = "side stand"


@dataclass(frozen=True, slots=True)
class PadReading:
    """Friction material on the thinnest pad of a caliper, and on the other if it was read."""

    thin_mm: float
    other_mm: float | None = None


@dataclass(frozen=True, slots=True)
class LevelLook:
    """What one person saw on one day.

    ``topped_up_ml`` was poured in since the look before, less what was drawn off.
    ``new_pads`` says that pads were changed since the look before.
    """

    on: date
    measure: LevelMeasure
    level: float
    pads: Mapping[str, PadReading] = field(default_factory=dict)
    discs_mm: Mapping[str, float] = field(default_factory=dict)
    topped_up_ml: float = 0.0
    km: float | None = None
    degc: float | None = None
    stand: Stand = Stand.LEVEL
    new_pads: bool = False


@dataclass(frozen=True, slots=True)
class LevelRequest:
    """Looks in the order of their days, and how finely they were read.

    Nine in ten readings of the level lie within ``ruler_mm`` of the truth, and of the pads
    within ``gauge_mm``. ``marks_mm`` is the distance from MIN to MAX, None if not measured.
    """

    on: date
    looks: tuple[LevelLook, ...]
    ruler_mm: float = 0.5
    gauge_mm: float = 0.5
    marks_mm: float | None = None
    seed: int = 1


class LevelVerdict(StrEnum):
    """What the looks say in a few words."""

    ONE_LOOK = "one look"
    WEAR = "wear explains it"
    UNCLEAR = "cannot tell"
    GONE = "more has gone than wear explains"
    ROSE = "the level rose"


@dataclass(frozen=True, slots=True)
class BetweenLooks:
    """Where the fluid went between two looks; ``left_ml`` is what nothing explains.

    ``fell_ml`` is how far the level fell, ``drawn_ml`` what wear drew (below zero where
    pistons went home), ``warmth_ml`` what a warmer circuit added.
    """

    start: date
    end: date
    fell_ml: Band
    topped_up_ml: float
    drawn_ml: Band
    warmth_ml: Band
    left_ml: Band
    chance_gone: float
    chance_rose: float


@dataclass(frozen=True, slots=True)
class NewPadsForecast:
    """What happens when the pistons go home for new pads.

    ``take_out_first_ml`` keeps the level below MAX even at the bad end of the band.
    """

    rise_ml: Band
    level_after_ml: Band
    take_out_first_ml: float


@dataclass(frozen=True, slots=True)
class DateBand:
    """The 5, 50 and 95 % points of a date; None is not within thirty years."""

    p05: date | None
    p50: date | None
    p95: date | None


@dataclass(frozen=True, slots=True)
class LevelReport:
    """What the looks at one reservoir say.

    ``left_ml`` is the fluid gone from the first look to the last that neither wear nor
    warmth explains, as a steady loss fitted over all looks; ``would_see_ml`` the loss that
    such looks would find nineteen times in twenty. The chances are those of more than
    ``tolerated_ml`` gone or risen. Where there is one look only, they are None.
    """

    bike: str
    circuit: str
    on: date
    verdict: LevelVerdict
    says: tuple[str, ...]
    left_ml: Band | None
    drawn_ml: Band | None
    chance_gone: float | None
    chance_rose: float | None
    tolerated_ml: float
    would_see_ml: float | None
    left_per_month_ml: Band | None
    left_per_1000_km_ml: Band | None
    between: tuple[BetweenLooks, ...]
    level_ml: Band
    above_min_ml: Band
    fill_to_ml: Band
    fill_above_min_ml: Band
    new_pads: NewPadsForecast | None
    min_on: DateBand | None
    pads_gone_first: float | None
    is_clutch: bool
    assumed: tuple[Assumed, ...]
    narrow: tuple[Narrow, ...]
    cautions: tuple[str, ...]
    findings: tuple[str, ...]
    sources: tuple[str, ...]
