# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the facts come to: the state document, the same in Python and in the browser."""

from dataclasses import asdict
from typing import Any

from firmlever.domain.bench.air import air_seen
from firmlever.domain.bench.evidence import is_agreed
from firmlever.domain.bench.facts import Facts, Turn
from firmlever.domain.bench.fold import cups_for, unit_at
from firmlever.domain.bench.pot import Gauge, gauge
from firmlever.domain.bench.readings import UnitMl, total_count
from firmlever.domain.bench.reckoned import Reckoned, reckoned
from firmlever.domain.bench.sheet import JobSheet
from firmlever.domain.bench.stages import due_at, gates_in_the_way, phase_of, still_open

Document = dict[str, Any]


def state_document(sheet: JobSheet, facts: Facts) -> Document:
    """Return the state of a run as plain JSON values."""
    unit = unit_at(sheet, facts, facts.point)
    found = [
        reckoned(sheet, point, turn, unit_at(sheet, facts, index))
        for index, (point, turn) in enumerate(zip(sheet.points, facts.turns, strict=True))
    ]
    air = air_seen(sheet, facts.turns, [now.marks for now in found])
    return {
        "phase": phase_of(sheet, facts),
        "is_paused": facts.is_paused,
        "posture": facts.posture,
        "leader": facts.leader,
        "work": facts.work,
        "work_why": facts.work_why,
        "gates": {gate: asdict(state) for gate, state in facts.gates.items()},
        "gates_open": list(gates_in_the_way(sheet, facts)),
        "point": facts.point,
        "suction": facts.suction,
        "unit_ml": asdict(unit),
        "pot": _pot(facts, gauge_now(sheet, facts)),
        "turns": [
            _turn(sheet, index, facts.turns[index], now, unit_at(sheet, facts, index))
            for index, now in enumerate(found)
        ],
        "air": [asdict(one) for one in air],
        "bottles": [asdict(bottle) for bottle in facts.bottles],
        "cycled": list(facts.cycled),
        "doubts": [asdict(doubt) for doubt in facts.doubts],
        "refused": [asdict(refusal) for refusal in facts.refused],
        "ended": {end: asdict(reached) for end, reached in facts.ended.items()},
        "follow_ups": _follow_ups(sheet, facts),
        "notes": [asdict(note) for note in facts.notes],
        "measured": [asdict(measurement) for measurement in facts.measured],
        "photos": [asdict(photo) for photo in facts.photos],
        "signed": None if facts.signed is None else asdict(facts.signed),
        "open": list(still_open(sheet, facts)),
    }


def gauge_now(sheet: JobSheet, facts: Facts) -> Gauge:
    """Return what the reservoir gives yet."""
    has_cup = bool(cups_for(sheet, facts, facts.point))
    unit = unit_at(sheet, facts, facts.point)
    return gauge(sheet, facts.pot, facts.below, facts.posture, unit, has_cup=has_cup)


def _pot(facts: Facts, now: Gauge) -> Document:
    return {**asdict(now), **asdict(facts.pot)}


def _turn(sheet: JobSheet, index: int, turn: Turn, now: Reckoned, unit: UnitMl) -> Document:
    return {
        "count": turn.count,
        "out_ml": asdict(now.out_ml),
        "new_share": asdict(now.new_share),
        "total_count": asdict(total_count(sheet, sheet.points[index], turn.cup, unit)),
        "cup_ml": None if turn.cup is None else turn.cup.ml,
        "cup_at": None if turn.cup is None else turn.cup.at,
        "sample_ml": turn.sample_ml,
        "marks": [asdict(mark) for mark in now.marks],
        "tube": turn.tube,
        "evidence": [asdict(one) for one in now.evidence],
        "agrees": is_agreed(now.evidence),
        "is_begun": turn.is_begun,
        "is_shut": turn.is_shut,
        "is_done": turn.is_done,
        "reason": turn.reason,
    }


def _follow_ups(sheet: JobSheet, facts: Facts) -> list[Document]:
    found = []
    for one in sheet.follow_ups:
        recheck = facts.rechecks.get(one.id)
        found.append(
            {
                "id": one.id,
                "due_at": due_at(facts, one.after_hours),
                "answer": None if recheck is None else recheck.answer,
                "reason": None if recheck is None else recheck.reason,
            }
        )
    return found
