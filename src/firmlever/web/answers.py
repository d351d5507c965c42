# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The shapes of answers, for the description of the interface."""

from datetime import date, datetime
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, RootModel, WithJsonSchema

from firmlever.domain.circuit import BikeClass, Control, Layout, Material, PartKind
from firmlever.domain.level import LevelMeasure, Stand
from firmlever.domain.lever import Pace, SetKind
from firmlever.domain.scene import Scene
from firmlever.domain.tables import FluidBase, Method, Work
from firmlever.report.json import LEVER_TEST, PLAN
from firmlever.report.level_json import LEVEL
from firmlever.report.record_json import RECORD
from firmlever.report.words import WordSet
from firmlever.web.refusals import ProblemShown


class Answer(BaseModel):
    """Base of all answers: nothing comes that is not said here."""

    model_config = ConfigDict(extra="forbid")


class Range(Answer):
    """The 5 and 95 % points."""

    low: float
    high: float


class SizesGiven(Answer):
    """A list of sizes."""

    list: list[float]


Given = dict[str, float | Range]
Plan = Annotated[dict[str, Any], WithJsonSchema(PLAN.schema)]
LeverResult = Annotated[dict[str, Any], WithJsonSchema(LEVER_TEST.schema)]
LevelResult = Annotated[dict[str, Any], WithJsonSchema(LEVEL.schema)]
BenchRecord = Annotated[dict[str, Any], WithJsonSchema(RECORD.schema)]


class StatusAnswer(Answer):
    """What runs here."""

    version: str
    words: list[WordSet]
    today: date


class CircuitSummary(Answer):
    """A circuit in the list: what is in it, and how much of it is known."""

    name: str
    control: Control
    fluid: str | None
    screws: int
    known: int
    of: int


class Summary(Answer):
    """A machine in the list."""

    id: str
    name: str
    bike_class: BikeClass
    revision: int
    changed_at: datetime
    is_demo: bool
    circuits: list[CircuitSummary]


class MachinesAnswer(Answer):
    """All machines, last changed first."""

    machines: list[Summary]


class ScrewView(Answer):
    """A bleed screw."""

    id: str
    given: Given


class PartView(Answer):
    """A part of a circuit."""

    id: str
    kind: PartKind
    given: Given
    screws: list[ScrewView]
    layout: Layout | None
    pistons_mm: list[float]
    wheel: str | None
    body: str | None


class LineView(Answer):
    """A line between two parts."""

    start: str
    end: str
    given: Given
    material: Material | None
    via_mm: list[tuple[float, float]]


class FluidView(Answer):
    """What the maker asks for, and what is in there."""

    required: list[str]
    filled: str | None
    filled_on: date | None


class CircuitView(Answer):
    """A circuit."""

    name: str
    control: Control
    parts: list[PartView]
    lines: list[LineView]
    fluid: FluidView


class StepView(Answer):
    """A step of the manual's own order."""

    circuit: str
    screw: str
    posture: str | None
    until: str | None
    note: str | None


class BikeView(Answer):
    """All that a machine's text says."""

    name: str
    bike_class: BikeClass
    circuits: list[CircuitView]
    given: Given
    other_brakes: list[str]
    sequence: list[StepView]


class Detail(Summary):
    """A machine with its text."""

    text: str
    bike: BikeView


class PlanAnswer(Answer):
    """A plan as its document, and the drawing it colours."""

    plan: Plan
    scene: Scene


class PlanDocument(RootModel[Plan]):
    """The document of a kept plan."""


class QuestionView(Answer):
    """One thing worth knowing, and how to find it out."""

    key: str
    also: list[str]
    words: str
    measure: str
    unit: str
    low: float
    high: float
    usual_low: float | None
    usual_high: float | None
    picture: str
    per_cent: float
    given: float | Range | SizesGiven | None


class QuestionsAnswer(Answer):
    """Questions, best first."""

    questions: list[QuestionView]


class KeptAnswer(Answer):
    """What was kept."""

    id: str


class KeptView(Answer):
    """A kept plan in one line."""

    id: str
    circuit: str
    made_at: datetime
    machine_revision: int
    headline: str


class PlansAnswer(Answer):
    """The kept plans of a machine, newest first."""

    plans: list[KeptView]


class TechniqueView(Answer):
    """A way of working a method."""

    method: Method
    name: str
    works: list[Work] = Field(description="the jobs it makes sense for")
    steps: list[str]
    back_suction: str = Field(description="none, possible or likely")


class TechniquesAnswer(Answer):
    """Ways of working; the first of a method is its default."""

    techniques: list[TechniqueView]


class FluidGradeView(Answer):
    """A grade of fluid."""

    name: str
    base: FluidBase


class FluidsAnswer(Answer):
    """Grades of fluid."""

    fluids: list[FluidGradeView]


class PreviewScene(Answer):
    """One circuit of a machine still being described."""

    circuit: str
    scene: Scene


class PreviewAnswer(Answer):
    """The drawings that looks would give."""

    scenes: list[PreviewScene]


class EventView(BaseModel):
    """An event as it was sent; what else it holds depends on its kind."""

    model_config = ConfigDict(extra="allow")

    id: str
    at: str
    who: str
    device: str
    kind: str


class JobAnswer(Answer):
    """A job: the sheet it was started with, and its events in the order they arrived."""

    id: str
    machine_id: str
    machine_revision: int
    made_at: datetime
    sheet: dict[str, Any]
    events: list[EventView]
    arrival: int


class JobLine(Answer):
    """A job in the list: where it stands and what is still open."""

    id: str
    machine_id: str
    bike: str
    circuit: str
    made_at: datetime
    phase: str
    open: list[str]


class JobsAnswer(Answer):
    """Jobs, newest first."""

    jobs: list[JobLine]


class EventsAnswer(Answer):
    """Events that arrived since, and the last arrival to ask from next time."""

    events: list[EventView]
    arrival: int


class RefusedView(Answer):
    """An event that was not kept, and why: "not understood" or "other content"."""

    id: str
    why: str
    problems: list[ProblemShown]


class OutcomeAnswer(Answer):
    """The ids that are kept now, and the events that are not."""

    accepted: list[str]
    refused: list[RefusedView]
    arrival: int


class RecordDocument(RootModel[BenchRecord]):
    """The record of a job."""


class LeverDocument(RootModel[LeverResult]):
    """What readings at a lever say."""


class BandView(Answer):
    """The 5, 50 and 95 % points."""

    p05: float
    p50: float
    p95: float


class LeverHead(Answer):
    """When a lever test was kept, by whom, and for which job."""

    id: str
    made_at: datetime
    who: str
    job_id: str | None
    machine_revision: int


class LeverLine(LeverHead):
    """A kept lever test in one line."""

    air_ml: BandView
    air_after_ml: BandView | None
    left_ml: BandView | None
    clearance_ml: BandView
    air_and_clearance_ml: BandView
    together: float


class MarkView(Answer):
    """Which test was marked as the good state, when and by whom."""

    test: str
    marked_at: datetime
    who: str


class KeptLeversAnswer(Answer):
    """The kept lever tests of a circuit, oldest first; ``baseline`` is the mark that counts."""

    tests: list[LeverLine]
    baseline: str | None
    baselines: list[MarkView]


class SetView(Answer):
    """One run of readings."""

    kind: SetKind
    force_n: list[float]
    travel_mm: list[float]


class HoldView(Answer):
    """Readings against time at one force."""

    pace: Pace
    force_n: float
    seconds: list[float]
    travel_mm: list[float]


class ReadingsView(Answer):
    """What was read."""

    before: list[SetView]
    after: list[SetView] | None
    ruler_mm: float
    altitude_m: float
    holds: list[HoldView]


class KeptLeverAnswer(LeverHead):
    """A kept lever test."""

    readings: ReadingsView
    document: LeverResult


class LevelAnswer(Answer):
    """What the looks at a level say; null where there is none."""

    document: LevelResult | None


class PadsView(Answer):
    """What was on the pads of a caliper."""

    thin_mm: float
    other_mm: float | None


class SeenView(Answer):
    """What was seen."""

    on: date
    measure: LevelMeasure
    level: float
    pads: dict[str, PadsView]
    discs_mm: dict[str, float]
    topped_up_ml: float
    km: float | None
    degc: float | None
    stand: Stand
    new_pads: bool


class BackView(Answer):
    """When a look was taken back, and by whom."""

    at: datetime
    who: str


class LookView(Answer):
    """A kept look; it counts while it is not taken back."""

    id: str
    made_at: datetime
    who: str
    machine_revision: int
    look: SeenView
    taken_back: BackView | None


class LooksAnswer(Answer):
    """The kept looks of a circuit, earliest day first."""

    looks: list[LookView]


class HeartbeatAnswer(Answer):
    """The computer is there."""

    ok: bool


class LackView(Answer):
    """Something that a way of serving cannot give, and what to do about it."""

    code: str
    words: str


class LevelView(Answer):
    """A way of serving the pages."""

    name: str
    words: str
    lacks: list[LackView]


class ServingAnswer(Answer):
    """How this page is served; ``lan_address`` is null where phones are not answered."""

    level: str
    levels: list[LevelView]
    lan_address: str | None


class OfferAnswer(Answer):
    """A code that pairs one phone, and the picture its camera reads."""

    code: str
    expires_at: datetime
    address: str
    qr_svg: str


class ClaimedAnswer(Answer):
    """The phone as it is paired now."""

    id: str
    name: str


class PhoneView(Answer):
    """A paired phone."""

    id: str
    name: str
    made_at: datetime
    seen_at: datetime


class PhonesAnswer(Answer):
    """The paired phones, the newest first."""

    phones: list[PhoneView]
