# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Places of one circuit at which air can rest, and what would bring it out."""

from dataclasses import dataclass
from enum import StrEnum

from firmlever.domain.quantity import Band, CountBand


class PlaceKind(StrEnum):
    """The kinds of place at which a bubble can stay."""

    PEAK = "peak of a line"
    BANJO = "banjo at the master cylinder"
    HIGH_PART = "part above its neighbours"
    DEAD_END = "dead end"
    ABOVE_SCREW = "chamber above its screw"
    LEVEL = "level passage"
    UNSWEPT = "pocket that the flow passes by"


@dataclass(frozen=True, slots=True)
class Place:
    """A place at which air can rest.

    ``owner`` is a part's id or a line's "start > end", ``at_mm`` how far along the line.
    ``likely`` is the probability that air which gets there stays, as far as heights,
    bores and the fluid are known; ``holds_ml`` how much fits. ``words`` say what it is and
    ``remedy`` what to do if no flow clears it.
    """

    id: str
    kind: PlaceKind
    owner: str
    at_mm: float | None
    height_mm: Band
    holds_ml: Band
    likely: float
    words: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Carried:
    """How a plan's method brings the air of one place to a screw.

    ``chance`` is the probability that it gets there; ``volume_ml`` what must leave the
    screw until then and ``strokes`` the same in strokes, over the draws in which it does
    (None where it hardly ever does). ``pull_s`` is the longest pull that still sweeps it,
    None where any pull does or none can. ``otherwise`` is what to do where no flow of this
    method clears it.
    """

    place: str
    screw: str | None
    chance: float
    volume_ml: Band | None
    strokes: CountBand | None
    pull_s: float | None
    otherwise: str


@dataclass(frozen=True, slots=True)
class AirPlan:
    """What a bleed rests on: where air can sit and what brings it out."""

    places: tuple[Place, ...]
    carried: tuple[Carried, ...]
    froth_minutes: int
