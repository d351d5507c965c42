# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whether an event is in place: one that is not changes nothing and is listed with why."""

from firmlever.domain.bench.events import (
    AtScrew,
    CupRead,
    DrawnDown,
    Ended,
    Event,
    GateAnswered,
    Marked,
    Measured,
    Noted,
    PhotoTaken,
    Rechecked,
    SampleCaught,
    ScrewShut,
    SetDone,
    Signed,
    Started,
    SuctionSet,
    TubeTested,
)
from firmlever.domain.bench.facts import Facts
from firmlever.domain.bench.sheet import Gate, JobSheet
from firmlever.domain.bench.stages import (
    are_follow_ups_open,
    are_screws_settled,
    gates_open,
    phase_of,
)

_AT_A_SCREW = (AtScrew, SampleCaught, SetDone, CupRead, Marked, TubeTested, ScrewShut)
_AFTER_GIVING_UP = (Noted, PhotoTaken, Measured, Signed)
# what would be new work once the job has come to an end
_WORK = (DrawnDown, AtScrew, SampleCaught, SetDone, SuctionSet, ScrewShut)


def out_of_place(sheet: JobSheet, facts: Facts, event: Event) -> str | None:
    """Return why an event cannot count, or None where it can."""
    deed = event.deed
    if not facts.is_started:
        return None if isinstance(deed, Started) else "not started"
    if isinstance(deed, _AT_A_SCREW) and deed.point >= len(sheet.points):
        return "no such screw"
    if "given up" in facts.ended and not isinstance(deed, _AFTER_GIVING_UP):
        return "given up"
    if facts.ended and isinstance(deed, _WORK):
        return "ended"
    match deed:
        case GateAnswered():
            return _gate(sheet, facts, deed)
        case SetDone() | SampleCaught():
            return _screw(sheet, facts, deed.point)
        case ScrewShut(point, True):
            return "gates open" if gates_open(sheet, facts, "shutting", point) else None
        case Rechecked():
            return _recheck(sheet, facts, deed)
        case Ended():
            return _end(sheet, facts, deed)
        case _:
            return None


def _gate(sheet: JobSheet, facts: Facts, deed: GateAnswered) -> str | None:
    gate: Gate | None = next((gate for gate in sheet.gates if gate.id == deed.gate), None)
    if gate is None:
        return "no such gate"
    if deed.answer == "overridden" and deed.reason is None:
        return "no reason"
    if gate.before == "rolling" and not are_screws_settled(facts):
        return "screws open"
    return None


def _screw(sheet: JobSheet, facts: Facts, point: int) -> str | None:
    if gates_open(sheet, facts, "opening"):
        return "gates open"
    if facts.point != point:
        return "not at this screw"
    if facts.turns[point].is_shut:
        return "screw shut"
    return "gates open" if gates_open(sheet, facts, "screw", point) else None


def _recheck(sheet: JobSheet, facts: Facts, deed: Rechecked) -> str | None:
    if all(one.id != deed.follow_up for one in sheet.follow_ups):
        return "no such follow-up"
    if "first stop done" not in facts.ended:
        return "first stop not done"
    return "no reason" if deed.answer == "waived" and deed.reason is None else None


def _end(sheet: JobSheet, facts: Facts, deed: Ended) -> str | None:
    if deed.end in facts.ended or "closed" in facts.ended:
        return "already ended"
    match deed.end:
        case "given up":
            return "no reason" if deed.reason is None else None
        case "ready to roll":
            return _rolling(sheet, facts)
        case "first stop done":
            return None if "ready to roll" in facts.ended else "not ready to roll"
        case "closed":
            if "first stop done" not in facts.ended:
                return "first stop not done"
            return "follow-ups open" if are_follow_ups_open(sheet, facts) else None


def _rolling(sheet: JobSheet, facts: Facts) -> str | None:
    if phase_of(sheet, facts) != "before rolling":
        return "screws open"
    if gates_open(sheet, facts, "rolling"):
        return "gates open"
    return "level low" if facts.below is not None else None
