# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The reservoir: how many counts its filling lasts, learned from looks at the level.

What a filling lasts is log-normal. It starts from the plan and the catch cup, and each look
at the level after some counts narrows it.
"""

import math
from dataclasses import dataclass, replace
from typing import Literal

from firmlever.domain.bench.events import Level, Posture
from firmlever.domain.bench.readings import UnitMl, Z
from firmlever.domain.bench.sheet import JobSheet, Reservoir
from firmlever.domain.quantity import Band

Below = Literal["min", "port"] | None

# at this many standard deviations none of a thousand simulated machines fell below MIN
# (regression: the bench laboratory)
_GUARD = 3.8
# what the side stand does to a filling beyond its tilt (judgement)
_SIDE_STAND_SPREAD = 0.35
# what looks can never narrow away (judgement)
_LEAST_SPREAD = 0.05
_LEAST_LEVEL = 0.1
_LEAST_GUARD = 0.05
_SOON_SETS = 2


@dataclass(frozen=True, slots=True)
class Pace:
    """One set, the least that can be done, and what the hand needs to stop (counts)."""

    set: int
    least: int
    react: int


PACES = {"stroke": Pace(set=5, least=1, react=0), "second": Pace(set=20, least=2, react=1)}


@dataclass(frozen=True, slots=True)
class Look:
    """A look at the level: counts since the filling and the drop since, a share of MIN to MAX."""

    counts: int
    drop: float


@dataclass(frozen=True, slots=True)
class Looks:
    """The last looks of earlier fillings, added up."""

    number: int = 0
    counts: int = 0
    drop: float = 0.0

    def plus(self, look: Look | None) -> "Looks":
        """Return these and one more."""
        if look is None:
            return self
        return Looks(self.number + 1, self.counts + look.counts, self.drop + look.drop)


@dataclass(frozen=True, slots=True)
class Pot:
    """The reservoir as last seen; levels are shares of the way from MIN to MAX.

    Where fluid comes up in it, shares are of the room below MAX instead. ``share`` None
    is not filled.
    """

    share: float | None = None
    from_share: float | None = None
    since_look: int = 0
    since_fill: int = 0
    look: Look | None = None
    looks: Looks = Looks()

    def filled(self, share: float) -> "Pot":
        """Return the pot after a filling to this share."""
        return Pot(share, share, looks=self.looks.plus(self.look))

    def seen(self, share: float) -> "Pot":
        """Return the pot after a look at its level; before any count it corrects the filling."""
        if self.from_share is None:
            return self.filled(share)
        if self.since_fill == 0:
            return replace(self, share=share, from_share=share)
        look = Look(self.since_fill, self.from_share - share)
        return replace(self, share=share, since_look=0, look=look)

    def at_another_screw(self) -> "Pot":
        """Return the pot where nothing learned at one screw holds at the next.

        It must be looked at before more is counted.
        """
        return Pot() if self.share is None else Pot(0.0, 0.0)

    def emptied(self) -> "Pot":
        """Return the pot with nothing above the port."""
        return Pot(looks=self.looks.plus(self.look))

    def counted(self, count: int) -> "Pot":
        """Return the pot after so many more strokes or seconds."""
        if self.share is None:
            return self
        return replace(self, since_look=self.since_look + count, since_fill=self.since_fill + count)


def share_of(sheet: JobSheet, to: Level | float) -> float:
    """Return a level as a share of what can be given from it."""
    reservoir = sheet.reservoir
    if to == "max":
        share = 1.0
    elif to == "fill line":
        fill_to = reservoir.fill_to_ml
        share = 1.0 if fill_to is None else fill_to / reservoir.usable_ml.p50
    else:
        share = to / reservoir.usable_ml.p50
    return 1.0 - share if sheet.direction == "up" else share


@dataclass(frozen=True, slots=True)
class Gauge:
    """What the pot gives yet; ``next_set`` is how many counts may be led before a look."""

    above_min_ml: Band | None
    left_ml: float
    counts_left: int
    next_set: int
    call: str


def gauge(
    sheet: JobSheet, pot: Pot, below: Below, posture: Posture, unit: UnitMl, *, has_cup: bool
) -> Gauge:
    """Return how far the pot is from its limit, at the bad end."""
    if pot.share is None:
        return Gauge(None, 0.0, 0, 0, _below(below) or "not filled")
    usable = sheet.reservoir.usable_ml.p50
    error = sheet.reservoir.read_error_ml / (Z * usable)
    lasts = _lasting(sheet, pot, posture, unit, has_cup=has_cup)
    above = _above_min_ml(sheet, pot, lasts, error)
    if below is not None:
        return Gauge(above, 0.0, 0, 0, _below(below) or "")
    pace = PACES[sheet.unit.name]
    safe = _safe_counts(pot.share, lasts, error)
    counts_left = max(0, math.floor(safe - pot.since_look - pace.react))
    left_ml = max(0.0, safe - pot.since_look) * unit.mean
    is_fresh = pot.share > 0.0 and pot.since_look == 0 and pot.since_fill == 0
    call, next_set = _call(pace, counts_left, is_fresh=is_fresh)
    return Gauge(above, left_ml, counts_left, next_set, call)


@dataclass(frozen=True, slots=True)
class _Lasting:
    """Counts from MAX to MIN: the logarithm's mean and standard deviation."""

    log: float
    sd: float


def _lasting(
    sheet: JobSheet, pot: Pot, posture: Posture, unit: UnitMl, *, has_cup: bool
) -> _Lasting:
    reservoir, tilted = sheet.reservoir, posture == "side stand"
    middle, pot_sd = _full_ml(reservoir, reservoir.tilt_ml if tilted else 0.0)
    unit_sd = unit.sd / unit.mean
    if not has_cup:
        unit_sd = max(unit_sd, math.log(sheet.unit.ml.p95 / sheet.unit.ml.p50) / Z)
    stand_sd = _SIDE_STAND_SPREAD if tilted else 0.0
    precision = 1.0 / (pot_sd * pot_sd + unit_sd * unit_sd + stand_sd * stand_sd)
    log = math.log(middle / unit.mean)
    looks = pot.looks.plus(pot.look)
    if looks.drop > 0.0:
        error = reservoir.read_error_ml / (Z * reservoir.usable_ml.p50)
        ratio = looks.drop / error
        weight = ratio * ratio / (2.0 * looks.number)
        learned = math.log(looks.counts / looks.drop)
        log = (precision * log + weight * learned) / (precision + weight)
        precision = precision + weight
    return _Lasting(log, math.sqrt(1.0 / precision + _LEAST_SPREAD * _LEAST_SPREAD))


def _full_ml(reservoir: Reservoir, tilt_ml: float) -> tuple[float, float]:
    """Return what a filling gives, and the standard deviation of its logarithm."""
    usable = reservoir.usable_ml
    middle = max(usable.p50 - tilt_ml, _LEAST_LEVEL * usable.p50)
    low = max(usable.p05 - tilt_ml, _LEAST_LEVEL * middle)
    guarded = max(_LEAST_GUARD, 1.0 - _GUARD * (1.0 - low / middle) / Z)
    return middle, -math.log(guarded) / _GUARD


def _safe_counts(share: float, lasts: _Lasting, error: float) -> float:
    if share <= 0.0:
        return 0.0
    look = error / share
    return share * math.exp(lasts.log - _GUARD * math.sqrt(lasts.sd * lasts.sd + look * look))


def _above_min_ml(sheet: JobSheet, pot: Pot, lasts: _Lasting, error: float) -> Band:
    usable = sheet.reservoir.usable_ml.p50
    gone = pot.since_look / math.exp(lasts.log)
    share = (pot.share or 0.0) - gone
    if sheet.direction == "up":
        share = 1.0 - share
    spread = gone * lasts.sd
    half = Z * math.sqrt(error * error + spread * spread) * usable
    middle = share * usable
    return Band(middle - half, middle, middle + half)


def _call(pace: Pace, counts_left: int, *, is_fresh: bool) -> tuple[str, int]:
    if counts_left >= pace.least:
        call = "fine" if counts_left >= _SOON_SETS * pace.set else "soon"
        return call, min(pace.set, counts_left)
    return ("watch", pace.least) if is_fresh else ("now", 0)


def _below(below: Below) -> str | None:
    return "below min" if below == "min" else below
