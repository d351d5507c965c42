# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where the fluid sat that somebody marks in the tube."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firmlever.domain.bench.events import Look
from firmlever.domain.plan import Strip, Washout
from firmlever.domain.quantity import Band

NEW = "new"
# an origin that never reaches this share is not seen in a tube (judgement)
_SEEN = 0.1
# the second origin is named too from this part of the first one's score on (judgement)
_SECOND_COUNTS = 0.5
_HARDLY_OLD = 0.02
_SURELY_NEW = 0.9
_SURELY_OLD = 0.5


@dataclass(frozen=True, slots=True)
class Origin:
    """A place and the share of the old fluid that comes from it."""

    name: str
    share: float


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen after so many counts at a screw."""

    event: str
    look: Look
    count: int


@dataclass(frozen=True, slots=True)
class Mark:
    """What was seen after so many millilitres, where that fluid sat, and what speaks against."""

    event: str
    look: Look
    at_ml: Band
    origins: tuple[Origin, ...]
    named: tuple[str, ...]
    disagrees: str | None


def mark_at(seen: Seen, out: Band, strip: Strip, washout: Washout) -> Mark:
    """Return what a mark means that was made when so much had come out of a screw.

    How much that was becomes clearer with the cup, so marks are reckoned anew each time.
    """
    means = _means(strip, out)
    old = sum_in_order([share for name, share in means if name != NEW])
    origins = tuple(
        Origin(name, share / old if old > 0.0 else 0.0) for name, share in means if name != NEW
    )
    disagrees = _disagreement(seen.look, new_share(washout, out))
    return Mark(seen.event, seen.look, out, origins, _named(strip, means, old), disagrees)


def sum_in_order(values: Sequence[float]) -> float:
    """Add from the first to the last, without the compensation of `sum`."""
    total = 0.0
    for value in values:
        total = total + value
    return total


def _means(strip: Strip, out: Band) -> list[tuple[str, float]]:
    """Return each origin's mean share over the slices that may be at the screw."""
    last = len(strip.shares) - 1
    first = min(math.floor(out.p05 / strip.slice_ml), last)
    end = max(first, min(math.ceil(out.p95 / strip.slice_ml) - 1, last))
    slices = strip.shares[first : end + 1]
    return [
        (name, sum_in_order([shares[column] for shares in slices]) / len(slices))
        for column, name in enumerate(strip.origins)
    ]


def _named(strip: Strip, means: Sequence[tuple[str, float]], old: float) -> tuple[str, ...]:
    """Name where the fluid sat.

    People mark where the darkness of a place is at its height, so what counts is how near
    a place is to its own height, weighed by how much of it there is.
    """
    scores = []
    for column, (name, mean) in enumerate(means):
        height = max(shares[column] for shares in strip.shares)
        if name != NEW and height >= _SEEN:
            scores.append((name, mean * math.sqrt(mean) / height))
    scores.sort(key=lambda scored: -scored[1])
    if old < _HARDLY_OLD or not scores:
        return (NEW,)
    enough = _SECOND_COUNTS * scores[0][1]
    return tuple(name for name, score in scores[:2] if score >= enough)


def _disagreement(look: Look, share: Band) -> str | None:
    if look == "dark" and share.p05 > _SURELY_NEW:
        return "dark though new"
    if look == "clear" and share.p95 < _SURELY_OLD:
        return "clear though old"
    return None


def new_share(washout: Washout, out: Band) -> Band:
    """Return how new the fluid at a screw is after so much came out."""
    volumes, shares = washout.volume_ml, washout.new_share
    return Band(
        _between(volumes, [share.p05 for share in shares], out.p05),
        _between(volumes, [share.p50 for share in shares], out.p50),
        _between(volumes, [share.p95 for share in shares], out.p95),
    )


def _between(volumes: Sequence[float], shares: Sequence[float], ml: float) -> float:
    """Straight lines between the points of a curve; its ends go on flat."""
    place = next((index for index, volume in enumerate(volumes) if volume > ml), None)
    if place is None:
        return shares[-1]
    if place == 0:
        return shares[0]
    x0, x1 = volumes[place - 1], volumes[place]
    y0, y1 = shares[place - 1], shares[place]
    return y0 + ((y1 - y0) * (ml - x0)) / (x1 - x0)
