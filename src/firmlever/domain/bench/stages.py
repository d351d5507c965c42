# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where a job stands: its phase, the gates in its way and its follow-ups."""

from datetime import datetime, timedelta
from typing import Literal

from firmlever.domain.bench.events import End
from firmlever.domain.bench.facts import Facts
from firmlever.domain.bench.sheet import JobSheet, Stage

Phase = Literal["before opening", "working", "before rolling"] | End

ENDS: tuple[End, ...] = ("given up", "closed", "first stop done", "ready to roll")
_ANSWERED = frozenset({"firm", "waived"})


def phase_of(sheet: JobSheet, facts: Facts) -> Phase:
    """Return the furthest end reached, or else what has to be done next."""
    for end in ENDS:
        if end in facts.ended:
            return end
    if not facts.is_started or gates_open(sheet, facts, "opening"):
        return "before opening"
    return "before rolling" if are_screws_settled(facts) else "working"


def are_screws_settled(facts: Facts) -> bool:
    """Return whether every screw is shut, and done or left with a reason."""
    return all(turn.is_settled for turn in facts.turns)


def gates_open(
    sheet: JobSheet, facts: Facts, before: Stage, point: int | None = None
) -> tuple[str, ...]:
    """Return the gates of a stage, and of a screw, without an answer that lets pass."""
    return tuple(
        gate.id
        for gate in sheet.gates
        if (gate.before, gate.point) == (before, point)
        and (gate.id not in facts.gates or facts.gates[gate.id].answer == "no")
    )


def gates_in_the_way(sheet: JobSheet, facts: Facts) -> tuple[str, ...]:
    """Return the open gates of the present stage."""
    match phase_of(sheet, facts):
        case "before opening":
            return gates_open(sheet, facts, "opening")
        case "working" if facts.point is not None and not facts.turns[facts.point].is_shut:
            return gates_open(sheet, facts, "screw", facts.point)
        case "before rolling":
            return gates_open(sheet, facts, "rolling")
        case _:
            return ()


def are_follow_ups_open(sheet: JobSheet, facts: Facts) -> bool:
    """Return whether a follow-up is neither firm nor waived."""
    return any(
        one.id not in facts.rechecks or facts.rechecks[one.id].answer not in _ANSWERED
        for one in sheet.follow_ups
    )


def due_at(facts: Facts, after_hours: float) -> str | None:
    """Return when a follow-up falls due, once the first stop is done."""
    first = facts.ended.get("first stop done")
    if first is None:
        return None
    due = datetime.fromisoformat(first.at) + timedelta(hours=after_hours)
    return f"{due:%Y-%m-%dT%H:%M:%S}.{due.microsecond // 1000:03d}Z"


def still_open(sheet: JobSheet, facts: Facts) -> tuple[str, ...]:
    """Return the codes of everything that is still open, whatever the phase."""
    gates = gates_open(sheet, facts, "opening") + gates_open(sheet, facts, "rolling")
    is_open = {
        "gates": bool(gates),
        "screws": not are_screws_settled(facts),
        "level": facts.below is not None,
        "first stop": "first stop done" not in facts.ended,
        "follow-ups": are_follow_ups_open(sheet, facts),
        "not signed": facts.signed is None,
    }
    return tuple(code for code, holds in is_open.items() if holds)
