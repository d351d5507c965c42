# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the inner rooms need from outside, as protocols."""

from collections.abc import Sequence
from datetime import date, datetime
from typing import Protocol

from firmlever.domain.circuit import Bike
from firmlever.domain.job import KeptEvent, KeptJob, SentEvent, Taken
from firmlever.domain.lever_log import Baseline, KeptLeverTest
from firmlever.domain.look_log import KeptLook, TakenBack
from firmlever.domain.machine import Change, KeptPlan, Machine, Outline
from firmlever.domain.phone import Phone
from firmlever.domain.tables import FluidGrade, Prior, Technique


class Tables(Protocol):
    """The data tables that come with the package."""

    def priors(self) -> Sequence[Prior]:
        """Class priors, most special rows first."""

    def grades(self) -> Sequence[FluidGrade]:
        """Fluid grades."""

    def techniques(self) -> Sequence[Technique]:
        """Ways of working each method; the first of a method is its default."""


class CircuitFiles(Protocol):
    """Circuit files, format 1."""

    def read(self, file: str) -> Bike:
        """Read and check a file; all its problems come in one error."""

    def text(self, file: str) -> str:
        """Return the text of a small file that goes with a circuit, such as readings."""

    def write_new(self, file: str, bike_class: str, name: str) -> None:
        """Write the outline of a class of machine to a file that is not there yet."""

    def change(self, file: str, changes: Sequence[Change]) -> None:
        """Make all changes in a file, keeping comments and all else; nothing half-way."""

    def schema(self) -> dict[str, object]:
        """Return the JSON Schema of the format."""

    def demo(self) -> Sequence[Bike]:
        """Return the machines of the demo workshop."""

    def parse(self, name: str, text: str) -> Bike:
        """Read and check a text; ``name`` stands for the file in what is said of it."""

    def outline(self, outline: Outline) -> str:
        """Return the text of a machine known only by its looks."""

    def changed(self, name: str, text: str, changes: Sequence[Change]) -> str:
        """Return the text with all changes made and checked; nothing half-way."""

    def demo_texts(self) -> Sequence[str]:
        """Return the texts of the demo workshop."""


class Machines(Protocol):
    """Kept machines. Each change names the revision that was read."""

    def all(self) -> Sequence[Machine]:
        """Return every machine, last changed first."""

    def get(self, machine_id: str) -> Machine:
        """Return one machine, or raise UnknownMachineError."""

    def add(self, machine: Machine) -> None:
        """Keep a new machine."""

    def change(self, machine: Machine, read_revision: int) -> None:
        """Keep a changed machine, or raise ChangedMeanwhileError."""

    def remove(self, machine_id: str, read_revision: int) -> None:
        """Forget a machine with its plans, or raise ChangedMeanwhileError."""

    def keep_plan(self, plan: KeptPlan) -> None:
        """Keep a plan."""

    def plans(self, machine_id: str) -> Sequence[KeptPlan]:
        """Return the kept plans of a machine, newest first."""

    def plan(self, plan_id: str) -> KeptPlan:
        """Return one kept plan, or raise UnknownPlanError."""


class Jobs(Protocol):
    """Kept jobs. An event is only ever added; what is kept under an id stays."""

    def all(self) -> Sequence[KeptJob]:
        """Return every job, newest first."""

    def of_machine(self, machine_id: str) -> Sequence[KeptJob]:
        """Return the jobs of a machine, newest first, whether it is still kept or not."""

    def get(self, job_id: str) -> KeptJob:
        """Return one job, or raise UnknownJobError."""

    def start(self, job: KeptJob, first: Sequence[SentEvent]) -> None:
        """Keep a new job with its first events."""

    def take(self, job_id: str, events: Sequence[SentEvent]) -> Taken:
        """Keep the events that are not there yet, all or none; return once they are kept."""

    def events(self, job_id: str, after: int = 0) -> Sequence[KeptEvent]:
        """Return the events that arrived after an arrival, in that order."""


class Looks(Protocol):
    """Kept looks at a level. A look and a note that takes it back are only ever added."""

    def keep(self, look: KeptLook) -> KeptLook:
        """Keep a look unless one is kept under its id; return the one that is kept."""

    def of_circuit(self, machine_id: str, circuit: str) -> Sequence[KeptLook]:
        """Return the looks of a circuit in the order they were kept."""

    def take_back(self, note: TakenBack) -> None:
        """Add the note that a look does not count, or raise UnknownLookError."""

    def taken_back(self, machine_id: str, circuit: str) -> Sequence[TakenBack]:
        """Return the notes of a circuit in the order they were made."""


class Levers(Protocol):
    """Kept lever tests. A test and a mark are only ever added."""

    def keep(self, test: KeptLeverTest) -> KeptLeverTest:
        """Keep a test unless one is kept under its id; return the one that is kept."""

    def get(self, test_id: str) -> KeptLeverTest:
        """Return one test, or raise UnknownLeverTestError."""

    def of_circuit(self, machine_id: str, circuit: str) -> Sequence[KeptLeverTest]:
        """Return the tests of a circuit, oldest first."""

    def mark(self, baseline: Baseline) -> None:
        """Mark a kept test as the good one of its circuit; earlier marks stay."""

    def baselines(self, machine_id: str, circuit: str) -> Sequence[Baseline]:
        """Return the marks of a circuit in the order they were made; the last one counts."""


class Phones(Protocol):
    """Paired phones."""

    def all(self) -> Sequence[Phone]:
        """Return the phones that were not taken off, the newest first."""

    def with_token(self, token_hash: str) -> Phone | None:
        """Return the phone whose token has this hash, unless it was taken off."""

    def add(self, phone: Phone) -> None:
        """Keep a new phone."""

    def see(self, phone_id: str, at: datetime) -> None:
        """Note when a phone was last seen, or raise UnknownPhoneError."""

    def revoke(self, phone_id: str, at: datetime) -> None:
        """Take a phone off, or raise UnknownPhoneError."""


class Clock(Protocol):
    """Where the date comes from."""

    def today(self) -> date:
        """Return the date of today."""

    def now(self) -> datetime:
        """Return the time, in UTC."""
