# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What comes next: new pads, and the day the level is down to MIN by wear alone."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit, Part, PartKind
from firmlever.domain.level import DateBand, LevelLook, NewPadsForecast
from firmlever.domain.quantity import Between
from firmlever.solve.bands import band
from firmlever.solve.level.leak import steady
from firmlever.solve.level.story import Story
from firmlever.units import from_si

Array = NDArray[np.float64]

_FARTHEST_DAYS = 30 * 365.25
# how much further pads nobody read may be worn than those that were (mm, judgement)
_UNREAD_MM = 0.5


def as_last_seen(circuit: Circuit, look: LevelLook, gauge_mm: float) -> Circuit:
    """Return the circuit with the pads as they were last seen.

    A content that the file gives for the pistons as they stood once is out of date.
    """
    thins = [pads.thin_mm for pads in look.pads.values()]
    if not thins:
        return circuit
    middle = sum(thins) / len(thins)

    def renewed(part: Part) -> Part:
        if part.kind is not PartKind.CALIPER:
            return part
        read = look.pads.get(part.id)
        thin = middle if read is None else read.thin_mm
        error = gauge_mm + (0.0 if read else _UNREAD_MM)
        pad = Between(max(thin - error, 0.0), thin + error)
        kept = {key: value for key, value in part.given.items() if key != "volume_ml"}
        return replace(part, given={**kept, "pad_mm": pad})

    return replace(circuit, parts=tuple(renewed(part) for part in circuit.parts))


def new_pads(level_m3: Array, behind_m3: Array, full_m3: Array) -> NewPadsForecast:
    """Return what the pistons push up when they go home, and how much to take out first."""
    after = level_m3 + behind_m3
    over = float(np.quantile(after - full_m3, 0.95))
    return NewPadsForecast(
        rise_ml=band(from_si(behind_m3, "ml")),
        level_after_ml=band(from_si(after, "ml")),
        take_out_first_ml=max(0.0, from_si(over, "ml")),
    )


def since_new_pads(looks: Sequence[LevelLook]) -> slice:
    """Return the looks that saw the pads that are in now."""
    first = max((place for place, look in enumerate(looks) if look.new_pads), default=0)
    return slice(first, len(looks))


def min_on(
    looks: Sequence[LevelLook], story: Story, low_m3: Array
) -> tuple[DateBand, float] | None:
    """Return the day MIN is reached by wear alone, and the chance that pads are gone before.

    None where the pads that are in were seen once only. A draw in which nothing wears
    never gets there.
    """
    seen = since_new_pads(looks)
    days = np.array([(look.on - looks[seen][0].on).days for look in looks[seen]], dtype=float)
    if len(days) < 2 or not story.worn:
        return None
    drawn = story.drawn_m3[:, seen]
    pace = steady(drawn, days) / days[-1]
    last = looks[-1].on
    room = np.maximum(story.level_m3[:, -1] - low_m3, 0.0)
    to_min = _days_to(room, pace)
    gone = [
        _days_to(np.maximum(one.thin_m[:, -1], 0.0), _pace(one.thin_m[:, seen], days))
        for one in story.worn.values()
    ]
    first = np.min(gone, axis=0)
    chance = float(np.mean(first < to_min))
    return _dates(last, to_min), chance


def _pace(thin_m: Array, days: Array) -> Array:
    pace: Array = -steady(thin_m, days) / days[-1]
    return pace


def _days_to(amount: Array, pace: Array) -> Array:
    return np.where(pace > 0.0, amount / np.maximum(pace, 1e-30), np.inf)


def _dates(last: date, days: Array) -> DateBand:
    # the farther point of an infinite step counts: no day between is made up
    ends = np.quantile(days, (0.05, 0.5, 0.95), method="higher")
    return DateBand(*(_day(last, float(end)) for end in ends))


def _day(last: date, days: float) -> date | None:
    return last + timedelta(days=int(days)) if days <= _FARTHEST_DAYS else None
