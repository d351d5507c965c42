# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The facts of a run as its events left them, before anything is reckoned from them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from firmlever.domain.bench.events import Cycling, End, GateAnswer, Look, Posture, RecheckAnswer
from firmlever.domain.bench.marks import Seen
from firmlever.domain.bench.pot import Pot
from firmlever.domain.bench.readings import Cup
from firmlever.domain.bench.sheet import JobSheet


@dataclass(frozen=True, slots=True)
class Turn:
    """One screw so far; ``bubbles_at`` is the count at which bubbles were last seen."""

    count: int = 0
    cup: Cup | None = None
    sample_ml: float = 0.0
    marks: tuple[Seen, ...] = ()
    look: Look | None = None
    bubbles_at: int | None = None
    tube: str | None = None
    is_begun: bool = False
    is_shut: bool = False
    is_done: bool = False
    reason: str | None = None

    @property
    def is_settled(self) -> bool:
        """Whether the screw is shut and either done or left with a reason."""
        return self.is_shut and (self.is_done or self.reason is not None)


@dataclass(frozen=True, slots=True)
class GateState:
    """How a gate was answered."""

    answer: GateAnswer
    reason: str | None
    who: str
    at: str


@dataclass(frozen=True, slots=True)
class Reached:
    """When an end was reached and who said so."""

    at: str
    who: str


@dataclass(frozen=True, slots=True)
class Recheck:
    """How a follow-up was answered."""

    answer: RecheckAnswer
    reason: str | None


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something that makes a number here less sure, and the event that did."""

    code: str
    event: str


@dataclass(frozen=True, slots=True)
class Refusal:
    """An event out of place, which changed nothing, and why."""

    event: str
    why: str


@dataclass(frozen=True, slots=True)
class Note:
    """A note."""

    event: str
    text: str


@dataclass(frozen=True, slots=True)
class Measurement:
    """A measurement of the person's own."""

    event: str
    what: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Photo:
    """The name of a photo."""

    event: str
    name: str


@dataclass(frozen=True, slots=True)
class Bottle:
    """A bottle the new fluid came from, as its label and its owner have it."""

    event: str
    fluid: str
    batch: str | None
    opened_on: str | None


@dataclass(frozen=True, slots=True)
class Signature:
    """Whose name stands under the record, and since when."""

    name: str
    at: str


@dataclass(frozen=True, slots=True)
class Facts:
    """The run so far. ``below`` is the line the level fell below, until it is topped up."""

    work: str
    turns: tuple[Turn, ...]
    is_started: bool = False
    is_paused: bool = False
    posture: Posture = "level"
    leader: str | None = None
    work_why: str | None = None
    gates: Mapping[str, GateState] = field(default_factory=dict)
    point: int | None = None
    suction: bool = False
    pot: Pot = field(default_factory=Pot)
    below: Literal["min", "port"] | None = None
    bottles: tuple[Bottle, ...] = ()
    cycled: tuple[Cycling, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    refused: tuple[Refusal, ...] = ()
    ended: Mapping[End, Reached] = field(default_factory=dict)
    rechecks: Mapping[str, Recheck] = field(default_factory=dict)
    notes: tuple[Note, ...] = ()
    measured: tuple[Measurement, ...] = ()
    photos: tuple[Photo, ...] = ()
    signed: Signature | None = None


def nothing_yet(sheet: JobSheet) -> Facts:
    """Return the facts before the first event."""
    return Facts(work=sheet.work, turns=tuple(Turn() for _ in sheet.points))
