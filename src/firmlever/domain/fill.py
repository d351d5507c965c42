# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a dry, opened or rebuilt circuit is filled, step by step."""

from dataclasses import dataclass

from firmlever.domain.quantity import Band, CountBand


@dataclass(frozen=True, slots=True)
class FillStep:
    """One step of a fill.

    ``at`` is the part or screw it is done at. ``words`` say what to do, ``see`` what should
    be seen, and ``stop`` when to leave off and what to suspect then. ``strokes`` is None
    where nothing is stroked.
    """

    id: str
    at: str
    words: str
    see: str
    stop: str
    volume_ml: Band
    strokes: CountBand | None


@dataclass(frozen=True, slots=True)
class ReverseFill:
    """Filling from a screw upwards.

    ``draw_off_after_ml`` is how much may be pushed in before the reservoir runs over, at
    the bad end of its band. ``reason`` says why it is not allowed, else it is empty.
    """

    at: str
    volume_ml: Band
    draw_off_after_ml: float
    allowed: bool
    reason: str


@dataclass(frozen=True, slots=True)
class FillPlan:
    """How to fill one circuit: the master first, then joint by joint.

    ``volume_ml`` is what the dry circuit takes up; ``prime`` is how to prime the master
    cylinder on the bench.
    """

    volume_ml: Band
    steps: tuple[FillStep, ...]
    reverse: tuple[ReverseFill, ...]
    prime: tuple[str, ...]
