# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Kept in memory: the fakes that the contracts hold to the same words as a database."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from firmlever.domain.job import KeptEvent, KeptJob, SentEvent, Taken
from firmlever.domain.lever_log import Baseline, KeptLeverTest
from firmlever.domain.look_log import KeptLook, TakenBack
from firmlever.domain.machine import KeptPlan, Machine
from firmlever.domain.phone import Phone
from firmlever.errors import (
    ChangedMeanwhileError,
    UnknownJobError,
    UnknownLeverTestError,
    UnknownLookError,
    UnknownMachineError,
    UnknownPhoneError,
    UnknownPlanError,
)


@dataclass
class MemoryMachines:
    """Machines and plans by their id."""

    machines: dict[str, Machine] = field(default_factory=dict)
    kept: dict[str, KeptPlan] = field(default_factory=dict)

    def all(self) -> Sequence[Machine]:
        by_name = sorted(self.machines.values(), key=lambda machine: machine.name)
        return tuple(sorted(by_name, key=lambda machine: machine.changed_at, reverse=True))

    def get(self, machine_id: str) -> Machine:
        if machine_id not in self.machines:
            raise UnknownMachineError(machine_id)
        return self.machines[machine_id]

    def add(self, machine: Machine) -> None:
        self.machines[machine.id] = machine

    def change(self, machine: Machine, read_revision: int) -> None:
        self._as_read(machine.id, read_revision)
        self.machines[machine.id] = machine

    def remove(self, machine_id: str, read_revision: int) -> None:
        self._as_read(machine_id, read_revision)
        del self.machines[machine_id]
        self.kept = {key: one for key, one in self.kept.items() if one.machine_id != machine_id}

    def keep_plan(self, plan: KeptPlan) -> None:
        self.get(plan.machine_id)
        self.kept[plan.id] = plan

    def plans(self, machine_id: str) -> Sequence[KeptPlan]:
        self.get(machine_id)
        mine = (plan for plan in self.kept.values() if plan.machine_id == machine_id)
        return tuple(sorted(mine, key=lambda plan: plan.made_at, reverse=True))

    def plan(self, plan_id: str) -> KeptPlan:
        if plan_id not in self.kept:
            raise UnknownPlanError(plan_id)
        return self.kept[plan_id]

    def _as_read(self, machine_id: str, read_revision: int) -> None:
        kept = self.get(machine_id)
        if kept.revision != read_revision:
            raise ChangedMeanwhileError(kept.name, read_revision, kept.revision)


@dataclass
class MemoryJobs:
    """Jobs and their events, one list of arrivals for all."""

    jobs: dict[str, KeptJob] = field(default_factory=dict)
    arrived: list[tuple[str, SentEvent]] = field(default_factory=list)

    def all(self) -> Sequence[KeptJob]:
        by_id = sorted(self.jobs.values(), key=lambda job: job.id)
        return tuple(sorted(by_id, key=lambda job: job.made_at, reverse=True))

    def of_machine(self, machine_id: str) -> Sequence[KeptJob]:
        return tuple(job for job in self.all() if job.machine_id == machine_id)

    def get(self, job_id: str) -> KeptJob:
        if job_id not in self.jobs:
            raise UnknownJobError(job_id)
        return self.jobs[job_id]

    def start(self, job: KeptJob, first: Sequence[SentEvent]) -> None:
        self.jobs[job.id] = job
        self.take(job.id, first)

    def take(self, job_id: str, events: Sequence[SentEvent]) -> Taken:
        self.get(job_id)
        accepted: list[str] = []
        differing: list[str] = []
        for event in events:
            kept = next((one for one in self.arrived if one[1].id == event.id), None)
            if kept is None:
                self.arrived.append((job_id, event))
            (accepted if kept in (None, (job_id, event)) else differing).append(event.id)
        last = max((one.arrival for one in self.events(job_id)), default=0)
        return Taken(tuple(dict.fromkeys(accepted)), tuple(dict.fromkeys(differing)), last)

    def events(self, job_id: str, after: int = 0) -> Sequence[KeptEvent]:
        self.get(job_id)
        return tuple(
            KeptEvent(arrival, event.id, event.body)
            for arrival, (of_job, event) in enumerate(self.arrived, start=1)
            if of_job == job_id and arrival > after
        )


@dataclass
class MemoryPhones:
    """Phones by their id, those taken off among them."""

    phones: dict[str, Phone] = field(default_factory=dict)

    def all(self) -> Sequence[Phone]:
        paired = sorted(
            (phone for phone in self.phones.values() if phone.revoked_at is None),
            key=lambda phone: phone.id,
        )
        return tuple(sorted(paired, key=lambda phone: phone.made_at, reverse=True))

    def with_token(self, token_hash: str) -> Phone | None:
        return next((phone for phone in self.all() if phone.token_hash == token_hash), None)

    def add(self, phone: Phone) -> None:
        self.phones[phone.id] = phone

    def see(self, phone_id: str, at: datetime) -> None:
        self.phones[phone_id] = replace(self._paired(phone_id), seen_at=at)

    def revoke(self, phone_id: str, at: datetime) -> None:
        self.phones[phone_id] = replace(self._paired(phone_id), revoked_at=at)

    def _paired(self, phone_id: str) -> Phone:
        phone = self.phones.get(phone_id)
        if phone is None or phone.revoked_at:
            raise UnknownPhoneError(phone_id)
        return phone


@dataclass
class MemoryLooks:
    """Looks by their id, and the notes that take some back."""

    kept: dict[str, KeptLook] = field(default_factory=dict)
    notes: list[TakenBack] = field(default_factory=list)

    def keep(self, look: KeptLook) -> KeptLook:
        return self.kept.setdefault(look.id, look)

    def of_circuit(self, machine_id: str, circuit: str) -> Sequence[KeptLook]:
        mine = (
            one
            for one in self.kept.values()
            if (one.machine_id, one.circuit) == (machine_id, circuit)
        )
        return tuple(sorted(mine, key=lambda one: (one.made_at, one.id)))

    def take_back(self, note: TakenBack) -> None:
        if note.look_id not in self.kept:
            raise UnknownLookError(note.look_id)
        self.notes.append(note)

    def taken_back(self, machine_id: str, circuit: str) -> Sequence[TakenBack]:
        return tuple(
            one for one in self.notes if (one.machine_id, one.circuit) == (machine_id, circuit)
        )


@dataclass
class MemoryLevers:
    """Lever tests by their id, and the marks in their order."""

    tests: dict[str, KeptLeverTest] = field(default_factory=dict)
    marks: list[Baseline] = field(default_factory=list)

    def keep(self, test: KeptLeverTest) -> KeptLeverTest:
        return self.tests.setdefault(test.id, test)

    def get(self, test_id: str) -> KeptLeverTest:
        if test_id not in self.tests:
            raise UnknownLeverTestError(test_id)
        return self.tests[test_id]

    def of_circuit(self, machine_id: str, circuit: str) -> Sequence[KeptLeverTest]:
        mine = (
            one
            for one in self.tests.values()
            if (one.machine_id, one.circuit) == (machine_id, circuit)
        )
        return tuple(sorted(mine, key=lambda one: (one.made_at, one.id)))

    def mark(self, baseline: Baseline) -> None:
        self.get(baseline.test_id)
        self.marks.append(baseline)

    def baselines(self, machine_id: str, circuit: str) -> Sequence[Baseline]:
        return tuple(
            one for one in self.marks if (one.machine_id, one.circuit) == (machine_id, circuit)
        )


@dataclass
class MemoryDatabase:
    """All of it, with nothing to let go of."""

    machines: MemoryMachines = field(default_factory=MemoryMachines)
    jobs: MemoryJobs = field(default_factory=MemoryJobs)
    phones: MemoryPhones = field(default_factory=MemoryPhones)
    levers: MemoryLevers = field(default_factory=MemoryLevers)
    looks: MemoryLooks = field(default_factory=MemoryLooks)

    def close(self) -> None:
        """Nothing is open."""
