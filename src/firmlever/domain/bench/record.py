# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The record of a job, told from its log: what was done, by whom, on what evidence.

Nothing in it is overwritten. What came after an end stands as a correction beside what was
there, and what was taken back is listed as such. It states what was found and what is still
open, and passes no verdict.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass

from firmlever.domain.bench.air import Says, air_seen
from firmlever.domain.bench.events import Ended, Event, Rechecked, Signed, ToppedUp, Undone
from firmlever.domain.bench.evidence import Evidence, is_agreed
from firmlever.domain.bench.facts import (
    Bottle,
    Doubt,
    Facts,
    GateState,
    Measurement,
    Note,
    Photo,
    nothing_yet,
)
from firmlever.domain.bench.fold import apply, unit_at
from firmlever.domain.bench.marks import Mark
from firmlever.domain.bench.ordering import effective, in_order, taken_back
from firmlever.domain.bench.readings import UnitMl
from firmlever.domain.bench.reckoned import reckoned
from firmlever.domain.bench.sheet import Gate, JobSheet
from firmlever.domain.bench.stages import due_at, phase_of, still_open
from firmlever.domain.cautions import FIRST_AUTHORITY
from firmlever.domain.quantity import Band


@dataclass(frozen=True, slots=True)
class ScrewEntry:
    """What was done at one screw. ``bubbles`` counts the marks that saw some."""

    at: str
    part: str
    count: int
    out_ml: Band
    cup_ml: float | None
    sample_ml: float
    topups: int
    bubbles: int
    marks: tuple[Mark, ...]
    tube: str | None
    new_share: Band
    evidence: tuple[Evidence, ...]
    agrees: bool
    is_shut: bool
    is_done: bool
    reason: str | None


@dataclass(frozen=True, slots=True)
class GateEntry:
    """How a gate was answered, by whom and when; all None where it was not."""

    id: str
    before: str
    words: str
    answer: str | None
    reason: str | None
    who: str | None
    at: str | None


@dataclass(frozen=True, slots=True)
class AirEntry:
    """A place at which air might sit, and whether its air was seen."""

    id: str
    words: str
    says: Says


@dataclass(frozen=True, slots=True)
class EndEntry:
    """An end that was reached, or a job given up and why."""

    end: str
    at: str
    who: str
    reason: str | None


@dataclass(frozen=True, slots=True)
class FollowUpEntry:
    """What was to be looked at again, when it fell due and what was found."""

    id: str
    words: str
    due_at: str | None
    answer: str | None
    reason: str | None


@dataclass(frozen=True, slots=True)
class LogEntry:
    """An entry of the log that a reader of the record must see by itself.

    ``said`` is what it says beyond its kind.
    """

    event: str
    at: str
    who: str
    kind: str
    said: str


@dataclass(frozen=True, slots=True)
class Record:
    """The whole record. ``began_at`` and ``last_at`` are the first and last times told.

    ``screws`` stand as they were at the last end reached, or now where there is none;
    ``corrected`` holds those that a later correction changed, as they are now.
    """

    bike: str
    circuit: str
    made_on: str
    work: str
    work_why: str | None
    method: str
    technique: str
    fluid: str
    target: float
    unit: str
    unit_ml: UnitMl
    phase: str
    began_at: str | None
    last_at: str | None
    people: tuple[str, ...]
    screws: tuple[ScrewEntry, ...]
    corrected: tuple[ScrewEntry, ...]
    topups: int
    bottles: tuple[Bottle, ...]
    cycled: tuple[str, ...]
    air: tuple[AirEntry, ...]
    gates: tuple[GateEntry, ...]
    ends: tuple[EndEntry, ...]
    follow_ups: tuple[FollowUpEntry, ...]
    doubts: tuple[Doubt, ...]
    notes: tuple[Note, ...]
    measured: tuple[Measurement, ...]
    photos: tuple[Photo, ...]
    corrections: tuple[LogEntry, ...]
    taken_back: tuple[LogEntry, ...]
    signatures: tuple[LogEntry, ...]
    signed_by: str | None
    open: tuple[str, ...]
    cautions: tuple[str, ...]
    says: str


def record_of(sheet: JobSheet, events: Iterable[Event]) -> Record:
    """Return the record of a job as its log has it now."""
    log = in_order(events)
    steps = tuple(_steps(sheet, effective(log)))
    facts = steps[-1][1] if steps else nothing_yet(sheet)
    counted = tuple(event for event, _ in steps)
    screws = _screws(sheet, steps)
    ended = [place for place, event in enumerate(counted) if isinstance(event.deed, Ended)]
    at_the_end = _screws(sheet, steps[: ended[-1] + 1]) if ended else screws
    times = sorted(event.at for event in counted)
    return Record(
        bike=sheet.bike,
        circuit=sheet.circuit,
        made_on=sheet.made_on,
        work=facts.work,
        work_why=facts.work_why,
        method=sheet.method,
        technique=sheet.technique,
        fluid=sheet.fluid,
        target=sheet.target,
        unit=sheet.unit.name,
        unit_ml=unit_at(sheet, facts, facts.point),
        phase=phase_of(sheet, facts),
        began_at=times[0] if times else None,
        last_at=times[-1] if times else None,
        people=tuple(dict.fromkeys(event.who for event in counted)),
        screws=at_the_end,
        corrected=tuple(
            now for before, now in zip(at_the_end, screws, strict=True) if now != before
        ),
        topups=sum(isinstance(event.deed, ToppedUp) for event in counted),
        bottles=facts.bottles,
        cycled=facts.cycled,
        air=_air(sheet, facts, screws),
        gates=_gates(sheet, facts),
        ends=_ends(counted),
        follow_ups=_follow_ups(sheet, facts),
        doubts=facts.doubts,
        notes=facts.notes,
        measured=facts.measured,
        photos=facts.photos,
        corrections=_corrections(sheet, log, counted),
        taken_back=_taken_back(sheet, log),
        signatures=tuple(
            _entry(sheet, event) for event in counted if isinstance(event.deed, Signed)
        ),
        signed_by=None if facts.signed is None else facts.signed.name,
        open=still_open(sheet, facts),
        cautions=tuple(one for one in sheet.cautions if one != FIRST_AUTHORITY),
        says=FIRST_AUTHORITY,
    )


def _steps(sheet: JobSheet, events: Iterable[Event]) -> Iterator[tuple[Event, Facts]]:
    """Yield each event that counts with the facts after it; one out of place is passed over."""
    facts = nothing_yet(sheet)
    for event in events:
        after = apply(sheet, facts, event)
        if len(after.refused) == len(facts.refused):
            yield event, after
        facts = after


def _screws(sheet: JobSheet, steps: Sequence[tuple[Event, Facts]]) -> tuple[ScrewEntry, ...]:
    """Return the screws as they stand after these steps."""
    facts = steps[-1][1] if steps else nothing_yet(sheet)
    topups = Counter(facts.point for event, facts in steps if isinstance(event.deed, ToppedUp))
    return tuple(_screw(sheet, facts, index, topups[index]) for index in range(len(sheet.points)))


def _screw(sheet: JobSheet, facts: Facts, index: int, topups: int) -> ScrewEntry:
    point, turn = sheet.points[index], facts.turns[index]
    now = reckoned(sheet, point, turn, unit_at(sheet, facts, index))
    return ScrewEntry(
        at=point.at,
        part=point.part,
        count=turn.count,
        out_ml=now.out_ml,
        cup_ml=None if turn.cup is None else turn.cup.ml,
        sample_ml=turn.sample_ml,
        topups=topups,
        bubbles=sum(mark.look == "bubbles" for mark in now.marks),
        marks=now.marks,
        tube=turn.tube,
        new_share=now.new_share,
        evidence=now.evidence,
        agrees=is_agreed(now.evidence),
        is_shut=turn.is_shut,
        is_done=turn.is_done,
        reason=turn.reason,
    )


def _air(sheet: JobSheet, facts: Facts, screws: Sequence[ScrewEntry]) -> tuple[AirEntry, ...]:
    seen = air_seen(sheet, facts.turns, [screw.marks for screw in screws])
    return tuple(
        AirEntry(place.id, place.words, one.says)
        for place, one in zip(sheet.air, seen, strict=True)
    )


def _gates(sheet: JobSheet, facts: Facts) -> tuple[GateEntry, ...]:
    return tuple(_gate(gate, facts.gates.get(gate.id)) for gate in sheet.gates)


def _gate(gate: Gate, state: GateState | None) -> GateEntry:
    if state is None:
        return GateEntry(gate.id, gate.before, gate.words, None, None, None, None)
    answered = (state.answer, state.reason, state.who, state.at)
    return GateEntry(gate.id, gate.before, gate.words, *answered)


def _ends(counted: Iterable[Event]) -> tuple[EndEntry, ...]:
    return tuple(
        EndEntry(event.deed.end, event.at, event.who, event.deed.reason)
        for event in counted
        if isinstance(event.deed, Ended)
    )


def _follow_ups(sheet: JobSheet, facts: Facts) -> tuple[FollowUpEntry, ...]:
    entries = []
    for one in sheet.follow_ups:
        found = facts.rechecks.get(one.id)
        answer, reason = (None, None) if found is None else (found.answer, found.reason)
        due = due_at(facts, one.after_hours)
        entries.append(FollowUpEntry(one.id, one.words, due, answer, reason))
    return tuple(entries)


def _corrections(
    sheet: JobSheet, log: tuple[Event, ...], counted: tuple[Event, ...]
) -> tuple[LogEntry, ...]:
    """Return what changed the record after its first end, even one taken back since."""
    first = next((event.id for event in log if isinstance(event.deed, Ended)), None)
    if first is None:
        return ()
    ids = {event.id for event in counted}
    gone = taken_back(log)
    return tuple(
        _entry(sheet, event)
        for event in log
        if event.id > first
        and not isinstance(event.deed, Ended | Rechecked | Signed)
        and (event.id in ids or (isinstance(event.deed, Undone) and event.id not in gone))
    )


def _taken_back(sheet: JobSheet, log: tuple[Event, ...]) -> tuple[LogEntry, ...]:
    gone = taken_back(log)
    return tuple(
        _entry(sheet, event)
        for event in log
        if event.id in gone and not isinstance(event.deed, Undone)
    )


def _entry(sheet: JobSheet, event: Event) -> LogEntry:
    return LogEntry(event.id, event.at, event.who, event.kind, _said(sheet, event))


def _said(sheet: JobSheet, event: Event) -> str:
    said = {key: value for key, value in asdict(event.deed).items() if value is not None}
    point = said.get("point", len(sheet.points))
    if point < len(sheet.points):
        said["point"] = sheet.points[point].at
    return ", ".join(f"{key.replace('_', ' ')} {value}" for key, value in said.items())
