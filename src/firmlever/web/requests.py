# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What may be sent: strict, nothing unknown, every number finite and bounded."""

from datetime import date
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, JsonValue

from firmlever.domain.circuit import BikeClass, Layout
from firmlever.domain.level import LevelLook, LevelMeasure, PadReading, Stand
from firmlever.domain.lever import Hold, Pace, ReadingSet, SetKind
from firmlever.domain.machine import FORKS, Change, Outline
from firmlever.domain.plan import PlanRequest
from firmlever.domain.quantity import Between, Exact
from firmlever.domain.readings import MOST_ROWS
from firmlever.domain.tables import Method, Work
from firmlever.services.jobs import Starter
from firmlever.services.lever_tests import Keeper, SentReadings

MOST_CHANGES = 500
MOST_PISTONS = 50
MOST_EVENTS = 200
MOST_SETS = 30
MOST_CALIPERS = 20
LONGEST_KEY = 700
LONGEST_NAME = 60
LONGEST_CODE = 40
LONGEST_DEVICE = 40
LONGEST_ID = 64
EVENT_ID = "^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$"
LARGEST_WHOLE = 2**53 - 1
LARGEST_SEED = 2**32 - 1

Number = Annotated[float, Field(allow_inf_nan=False)]
ShortText = Annotated[str, Field(max_length=LONGEST_KEY)]
Revision = Annotated[int, Field(ge=0, le=LARGEST_WHOLE, description="the revision that was read")]
Fork = Literal[FORKS]  # type: ignore[valid-type]


class Sent(BaseModel):
    """Base of all bodies."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


class Spread(Sent):
    """A range: the 5 and 95 % points."""

    low: Number
    high: Number


class Sizes(Sent):
    """A list of sizes: the pistons of a caliper."""

    sizes: Annotated[list[Number], Field(alias="list", max_length=MOST_PISTONS)]


class ChangeSent(Sent):
    """One value to set; null forgets it."""

    key: ShortText
    value: Number | Spread | Sizes | None

    def change(self) -> Change:
        """Return it as the domain has it."""
        match self.value:
            case None:
                return Change(self.key, None)
            case Spread(low=low, high=high):
                return Change(self.key, Between(low, high))
            case Sizes(sizes=sizes):
                return Change(self.key, tuple(sizes))
            case number:
                return Change(self.key, Exact(number))


class ChangesSent(Sent):
    """Values to set, all of them or none."""

    read_revision: Revision
    changes: Annotated[list[ChangeSent], Field(min_length=1, max_length=MOST_CHANGES)]


class TextSent(Sent):
    """A circuit file to put in the place of a machine's."""

    read_revision: Revision
    text: str


class Looks(Sent):
    """What a person knows of a machine by looking at it; null is "don't know"."""

    name: ShortText
    bike_class: Annotated[BikeClass, Field(strict=False)]
    front_discs: Annotated[int, Field(ge=0, le=2)] | None = None
    front_layout: Annotated[Layout, Field(strict=False)] | None = None
    fork: Fork | None = None
    abs_unit: bool | None = None
    rear_disc: bool | None = None
    hydraulic_clutch: bool | None = None
    fluid: ShortText | None = None


class LooksSent(Sent):
    """A machine to start."""

    outline: Looks

    def looks(self) -> Outline:
        """Return it as the domain has it."""
        return Outline(**dict(self.outline))


class Wish(Sent):
    """What a plan is to be like; all of it may be left out."""

    work: Annotated[Work, Field(strict=False)] = Work.FLUSH
    method: Annotated[Method, Field(strict=False)] = Method.LEVER
    technique: ShortText | None = None
    target: Number = 0.95
    pistons_home: bool = False
    fluid: ShortText | None = None
    workshop_degc: Number | None = None
    seed: Annotated[int, Field(ge=0, le=LARGEST_SEED)] = 1

    def request(self, circuit: str, on: date) -> PlanRequest:
        """Return it as the domain has it."""
        return PlanRequest(circuit=circuit, on=on, **dict(self))


class JobWish(Wish):
    """What a plan is to be like, and who carries it out."""

    who: Annotated[str, Field(max_length=LONGEST_NAME, pattern=r"\S")]
    device: Annotated[str, Field(max_length=LONGEST_DEVICE, pattern=r"\S")]
    posture: Literal["level", "side stand"]

    def wish(self) -> Wish:
        """Return what the plan is to be like."""
        return Wish.model_construct(**{key: getattr(self, key) for key in Wish.model_fields})

    def starter(self) -> Starter:
        """Return who carries it out."""
        return Starter(self.who, self.device, self.posture)


class EventSent(Sent):
    """One event; what belongs to its kind is checked when it is taken in."""

    model_config = ConfigDict(extra="allow")
    __pydantic_extra__: dict[str, JsonValue]

    id: Annotated[str, Field(pattern=EVENT_ID)]
    at: str
    who: str
    device: str
    kind: str


class EventsSent(Sent):
    """Events of one job."""

    events: Annotated[list[EventSent], Field(min_length=1, max_length=MOST_EVENTS)]


class SetSent(Sent):
    """One run of readings, the force going up only; another of the same kind is its repeat."""

    kind: Annotated[SetKind, Field(strict=False)]
    force_n: Annotated[list[Number], Field(max_length=MOST_ROWS)]
    travel_mm: Annotated[list[Number], Field(max_length=MOST_ROWS)]

    def readings(self) -> ReadingSet:
        """Return it as the domain has it, not checked yet."""
        return ReadingSet(self.kind, tuple(self.force_n), tuple(self.travel_mm))


class HoldSent(Sent):
    """Readings against time at one force."""

    pace: Annotated[Pace, Field(strict=False)]
    force_n: Number
    seconds: Annotated[list[Number], Field(max_length=MOST_ROWS)]
    travel_mm: Annotated[list[Number], Field(max_length=MOST_ROWS)]

    def hold(self) -> Hold:
        """Return it as the domain has it, not checked yet."""
        return Hold(self.pace, self.force_n, tuple(self.seconds), tuple(self.travel_mm))


class LeverSent(Sent):
    """What was read at a lever, before and perhaps after the work; holds are of the last."""

    before: Annotated[list[SetSent], Field(max_length=MOST_SETS)]
    after: Annotated[list[SetSent], Field(max_length=MOST_SETS)] | None = None
    ruler_mm: Number = 1.0
    altitude_m: Number = 0.0
    holds: Annotated[list[HoldSent], Field(max_length=MOST_SETS)] = []

    def readings(self) -> SentReadings:
        """Return it as the domain has it, not checked yet."""
        return SentReadings(
            [one.readings() for one in self.before],
            None if self.after is None else [one.readings() for one in self.after],
            self.ruler_mm,
            self.altitude_m,
            [one.hold() for one in self.holds],
        )


class LeverKeep(LeverSent):
    """Readings to keep, under an id made on the device."""

    id: Annotated[str, Field(pattern=EVENT_ID)]
    who: Annotated[str, Field(max_length=LONGEST_NAME, pattern=r"\S")]
    job_id: Annotated[str, Field(max_length=LONGEST_ID)] | None = None

    def keeper(self) -> Keeper:
        """Return who keeps them."""
        return Keeper(self.id, self.who, self.job_id)


class PadsSent(Sent):
    """Friction material on the thinnest pad of a caliper, and on the other if it was read."""

    thin_mm: Number
    other_mm: Number | None = None

    def reading(self) -> PadReading:
        """Return it as the domain has it, the thinner one first."""
        sizes = sorted(size for size in (self.thin_mm, self.other_mm) if size is not None)
        return PadReading(*sizes)


class LookSent(Sent):
    """A look at a level, under an id made on the device."""

    id: Annotated[str, Field(pattern=EVENT_ID)]
    who: Annotated[str, Field(max_length=LONGEST_NAME, pattern=r"\S")]
    on: Annotated[date, Field(strict=False)]
    measure: Annotated[LevelMeasure, Field(strict=False)]
    level: Number
    pads: Annotated[dict[ShortText, PadsSent], Field(max_length=MOST_CALIPERS)] = {}
    discs_mm: Annotated[dict[ShortText, Number], Field(max_length=MOST_CALIPERS)] = {}
    topped_up_ml: Number = 0.0
    km: Number | None = None
    degc: Number | None = None
    stand: Annotated[Stand, Field(strict=False)] = Stand.LEVEL
    new_pads: bool = False

    def look(self) -> LevelLook:
        """Return it as the domain has it, not checked yet."""
        return LevelLook(
            self.on,
            self.measure,
            self.level,
            {name: pads.reading() for name, pads in self.pads.items()},
            dict(self.discs_mm),
            self.topped_up_ml,
            self.km,
            self.degc,
            self.stand,
            self.new_pads,
        )


class TakeBack(Sent):
    """Who says that a look does not count."""

    who: Annotated[str, Field(max_length=LONGEST_NAME, pattern=r"\S")]


class MarkSent(Sent):
    """Who says that this test shows the good state."""

    who: Annotated[str, Field(max_length=LONGEST_NAME, pattern=r"\S")]


class Claim(Sent):
    """A pairing code, and what to call the phone."""

    code: Annotated[str, Field(max_length=LONGEST_CODE)]
    name: Annotated[str, Field(max_length=LONGEST_NAME, pattern=r"\S")]
