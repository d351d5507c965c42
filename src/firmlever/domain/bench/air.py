# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which of the plan's places still hold air, as far as the tube has shown it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from firmlever.domain.bench.facts import Turn
from firmlever.domain.bench.marks import Mark
from firmlever.domain.bench.sheet import AirPlace, JobSheet
from firmlever.domain.bench.tube import FROM_OUTSIDE

Says = Literal["open", "seen out", "not seen"]


@dataclass(frozen=True, slots=True)
class AirSeen:
    """A place and whether its air was seen, is still awaited or never showed."""

    id: str
    says: Says


def air_seen(
    sheet: JobSheet, turns: Sequence[Turn], marks: Sequence[Sequence[Mark]]
) -> tuple[AirSeen, ...]:
    """Return what the bubbles in the tube say about each place.

    Bubbles are put down to the place whose air is due nearest to what had come out by then.
    """
    seen = {
        place.id
        for index, turn in enumerate(turns)
        if turn.tube not in FROM_OUTSIDE
        for mark in marks[index]
        if mark.look == "bubbles"
        for place in _nearest(sheet, index, mark.at_ml.p50)
    }
    return tuple(AirSeen(place.id, _says(place, turns, place.id in seen)) for place in sheet.air)


def _nearest(sheet: JobSheet, index: int, out_ml: float) -> tuple[AirPlace, ...]:
    nearest: tuple[AirPlace, ...] = ()
    least = 0.0
    for place in sheet.air:
        if place.screw != index or place.volume_ml is None:
            continue
        off = abs(place.volume_ml.p50 - out_ml)
        if not nearest or off < least:
            nearest, least = (place,), off
    return nearest


def _says(place: AirPlace, turns: Sequence[Turn], is_seen: bool) -> Says:
    if is_seen:
        return "seen out"
    is_over = place.screw is not None and turns[place.screw].is_settled
    return "not seen" if is_over else "open"
