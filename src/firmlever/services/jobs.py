# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Jobs at the bench: start one from a plan, take in what devices send, say where each stands.

What devices send is checked event by event: one that cannot be used keeps no other back.
"""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Literal

from firmlever.domain.bench.events import Event, Started
from firmlever.domain.bench.fold import fold
from firmlever.domain.bench.reading import event_document, read_event
from firmlever.domain.bench.record import Record, record_of
from firmlever.domain.bench.sheet import JobSheet, read_sheet, sheet_document
from firmlever.domain.bench.stages import phase_of, still_open
from firmlever.domain.circuit import Circuit
from firmlever.domain.job import KeptEvent, KeptJob, SentEvent
from firmlever.domain.machine import Machine
from firmlever.domain.plan import FlushPlan
from firmlever.domain.tables import Technique
from firmlever.errors import MalformedEventError, Problem
from firmlever.ports import Clock, Jobs
from firmlever.services.bench import sheet_for

_VERSION_BITS, _VARIANT_BITS = 0x7000, 0x8000
Why = Literal["not understood", "other content"]


@dataclass(frozen=True, slots=True)
class Bench:
    """Where jobs are kept, and what keeping them needs.

    ``chance`` gives so many bytes that nobody can guess.
    """

    jobs: Jobs
    clock: Clock
    new_id: Callable[[], str]
    chance: Callable[[int], bytes]


@dataclass(frozen=True, slots=True)
class Starter:
    """Who starts a job, on which device, and how the machine stands."""

    who: str
    device: str
    posture: Literal["level", "side stand"]


@dataclass(frozen=True, slots=True)
class Refused:
    """An event that was not kept, and why; another one under its id stays as it is."""

    id: str
    why: Why
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of events that were sent: the ids kept now, and the others."""

    accepted: tuple[str, ...]
    refused: tuple[Refused, ...]
    arrival: int


@dataclass(frozen=True, slots=True)
class Standing:
    """A job in one line: where it stands and what is still open."""

    job: KeptJob
    bike: str
    phase: str
    still_open: tuple[str, ...]


def start(
    bench: Bench,
    machine: Machine,
    circuit: Circuit,
    plan: FlushPlan,
    techniques: Sequence[Technique],
    starter: Starter,
) -> KeptJob:
    """Keep a new job: the plan frozen as its sheet, and its first event.

    Raises
    ------
    MalformedEventError
        When a name is empty or too long.
    """
    now = bench.clock.now()
    at = f"{now.astimezone(UTC):%Y-%m-%dT%H:%M:%S}.{now.microsecond // 1000:03d}Z"
    first = Event(
        new_event_id(now, bench.chance), at, starter.who, starter.device, Started(starter.posture)
    )
    job = KeptJob(
        id=bench.new_id(),
        machine_id=machine.id,
        machine_revision=machine.revision,
        circuit=circuit.name,
        made_at=now,
        sheet=_text(sheet_document(sheet_for(circuit, plan, techniques))),
    )
    bench.jobs.start(job, [_checked(event_document(first))])
    return job


def take(bench: Bench, job_id: str, documents: Sequence[Mapping[str, Any]]) -> Outcome:
    """Keep the events that can be used and are not there yet.

    Raises
    ------
    UnknownJobError
        When there is no such job.
    NotWrittenError
        When the disk or a permission stands in the way; none of them is kept then.
    """
    fit: list[SentEvent] = []
    refused: list[Refused] = []
    for document in documents:
        try:
            fit.append(_checked(document))
        except MalformedEventError as error:
            refused.append(Refused(str(document.get("id")), "not understood", error.problems))
    taken = bench.jobs.take(job_id, fit)
    refused += [Refused(event_id, "other content") for event_id in taken.differing]
    return Outcome(taken.accepted, tuple(refused), taken.arrival)


def sheet_of(job: KeptJob) -> JobSheet:
    """Return the sheet a job was started with."""
    return read_sheet(json.loads(job.sheet))


def events_of(kept: Sequence[KeptEvent]) -> tuple[Event, ...]:
    """Return kept events as the bench reads them."""
    return tuple(read_event(json.loads(one.body)) for one in kept)


def standing(bench: Bench, job: KeptJob) -> Standing:
    """Return where a job stands."""
    sheet = sheet_of(job)
    facts = fold(sheet, events_of(bench.jobs.events(job.id)))
    return Standing(job, sheet.bike, phase_of(sheet, facts), still_open(sheet, facts))


def record(bench: Bench, job_id: str) -> Record:
    """Return the record of a job as its log has it now.

    Raises
    ------
    UnknownJobError
        When there is no such job.
    """
    sheet = sheet_of(bench.jobs.get(job_id))
    return record_of(sheet, events_of(bench.jobs.events(job_id)))


def new_event_id(now: datetime, chance: Callable[[int], bytes]) -> str:
    """Return an id that sorts by its time (UUIDv7).

    >>> new_event_id(datetime(2026, 5, 1, tzinfo=UTC), bytes)
    '019de0d5-c800-7000-8000-000000000000'
    """
    milliseconds = int(now.timestamp() * 1000) & 0xFFFF_FFFF_FFFF
    drawn = chance(10)
    version = _VERSION_BITS | int.from_bytes(drawn[:2]) & 0x0FFF
    variant = _VARIANT_BITS | int.from_bytes(drawn[2:4]) & 0x3FFF
    time = f"{milliseconds:012x}"
    return f"{time[:8]}-{time[8:]}-{version:04x}-{variant:04x}-{drawn[4:].hex()}"


def _checked(document: Mapping[str, Any]) -> SentEvent:
    event = read_event(document)
    return SentEvent(event.id, _text(event_document(event)))


def _text(document: Mapping[str, Any]) -> str:
    return json.dumps(document, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
