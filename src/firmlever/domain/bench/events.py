# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What can be written down at the bench: each event is a deed with its stamp."""

from dataclasses import dataclass
from typing import Literal

Posture = Literal["level", "side stand"]
GateAnswer = Literal["yes", "no", "does not apply", "overridden"]
Look = Literal["dark", "bubbles", "clear"]
End = Literal["ready to roll", "first stop done", "closed", "given up"]
RecheckAnswer = Literal["firm", "soft", "waived"]
Cycling = Literal["maker's tool", "workshop", "on the road"]
Level = Literal["max", "fill line"]


@dataclass(frozen=True, slots=True)
class Started:
    """The job starts, or its leader or the machine's posture changes."""

    posture: Posture


@dataclass(frozen=True, slots=True)
class GateAnswered:
    """A gate was answered; to override it needs a reason."""

    gate: str
    answer: GateAnswer
    reason: str | None


@dataclass(frozen=True, slots=True)
class BottleTaken:
    """The bottle the new fluid comes from; its batch and day of opening where known."""

    fluid: str
    batch: str | None
    opened_on: str | None


@dataclass(frozen=True, slots=True)
class DrawnDown:
    """The old fluid is out of the reservoir, which is wiped, not below the port."""


@dataclass(frozen=True, slots=True)
class ToppedUp:
    """The reservoir was filled to a line or to so many millilitres above MIN."""

    to: Level | float


@dataclass(frozen=True, slots=True)
class LevelRead:
    """The level was looked at (ml above MIN)."""

    above_min_ml: float


@dataclass(frozen=True, slots=True)
class WentBelow:
    """The level fell below a line that it must not pass."""

    what: Literal["min", "port"]


@dataclass(frozen=True, slots=True)
class AtScrew:
    """Work turns to a screw, for the first time or again."""

    point: int


@dataclass(frozen=True, slots=True)
class SampleCaught:
    """The first millilitres of a screw were caught apart."""

    point: int
    ml: float


@dataclass(frozen=True, slots=True)
class SetDone:
    """So many strokes or seconds were done."""

    point: int
    count: int


@dataclass(frozen=True, slots=True)
class CupRead:
    """All that is in the cup since this screw was begun, the sample not counted (ml)."""

    point: int
    ml: float


@dataclass(frozen=True, slots=True)
class Marked:
    """Something was seen in the tube."""

    point: int
    look: Look


@dataclass(frozen=True, slots=True)
class SuctionSet:
    """Suction was put on or taken off."""

    on: bool


@dataclass(frozen=True, slots=True)
class TubeAnswers:
    """Answers of the guided test of the tube; None was not tried."""

    shut_bubbles_go_on: bool | None
    gravity_bubbles: bool | None
    after_rest_bubbles: bool | None


@dataclass(frozen=True, slots=True)
class TubeTested:
    """The guided test of the tube was done at a screw."""

    point: int
    answers: TubeAnswers


@dataclass(frozen=True, slots=True)
class ScrewShut:
    """A screw was shut: done, or not done for a reason, or for the moment."""

    point: int
    is_done: bool
    reason: str | None


@dataclass(frozen=True, slots=True)
class UnitCycled:
    """The ABS unit's valves and pump were run."""

    how: Cycling


@dataclass(frozen=True, slots=True)
class Paused:
    """Work pauses."""


@dataclass(frozen=True, slots=True)
class Resumed:
    """Work goes on, led by the device that says so."""


@dataclass(frozen=True, slots=True)
class Noted:
    """A note."""

    text: str


@dataclass(frozen=True, slots=True)
class Measured:
    """A measurement of the person's own."""

    what: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class PhotoTaken:
    """A photo was taken; only its name is kept here."""

    name: str


@dataclass(frozen=True, slots=True)
class Undone:
    """An earlier event is taken back; this may be taken back in turn."""

    target: str


@dataclass(frozen=True, slots=True)
class Ended:
    """The job reaches one of its ends; to give up needs a reason."""

    end: End
    reason: str | None


@dataclass(frozen=True, slots=True)
class Rechecked:
    """A follow-up was answered; to waive it needs a reason."""

    follow_up: str
    answer: RecheckAnswer
    reason: str | None


@dataclass(frozen=True, slots=True)
class Signed:
    """Somebody puts a name to the record."""

    name: str


Deed = (
    Started
    | GateAnswered
    | BottleTaken
    | DrawnDown
    | ToppedUp
    | LevelRead
    | WentBelow
    | AtScrew
    | SampleCaught
    | SetDone
    | CupRead
    | Marked
    | SuctionSet
    | TubeTested
    | ScrewShut
    | UnitCycled
    | Paused
    | Resumed
    | Noted
    | Measured
    | PhotoTaken
    | Undone
    | Ended
    | Rechecked
    | Signed
)

DEEDS: dict[str, type[Deed]] = {
    "started": Started,
    "gate": GateAnswered,
    "bottle": BottleTaken,
    "drawn_down": DrawnDown,
    "topped_up": ToppedUp,
    "level_read": LevelRead,
    "went_below": WentBelow,
    "at_screw": AtScrew,
    "sample": SampleCaught,
    "set_done": SetDone,
    "caught": CupRead,
    "mark": Marked,
    "suction": SuctionSet,
    "tube_test": TubeTested,
    "shut": ScrewShut,
    "unit_cycled": UnitCycled,
    "paused": Paused,
    "resumed": Resumed,
    "note": Noted,
    "measured": Measured,
    "photo": PhotoTaken,
    "undone": Undone,
    "ended": Ended,
    "rechecked": Rechecked,
    "signed": Signed,
}
KINDS = {deed: kind for kind, deed in DEEDS.items()}


@dataclass(frozen=True, slots=True)
class Event:
    """What happened, with the id its device gave it, when, who and on which device.

    ``id`` is a UUIDv7 in lower case, ``at`` ISO 8601 in UTC with milliseconds.
    """

    id: str
    at: str
    who: str
    device: str
    deed: Deed

    @property
    def kind(self) -> str:
        """The name of the deed in the log."""
        return KINDS[type(self.deed)]
