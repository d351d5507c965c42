# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is reckoned at one screw from its turn: what came out, how new, marks and evidence."""

from dataclasses import dataclass

from firmlever.domain.bench.evidence import Evidence, evidence_at
from firmlever.domain.bench.facts import Turn
from firmlever.domain.bench.marks import Mark, mark_at, new_share
from firmlever.domain.bench.readings import UnitMl, out_ml
from firmlever.domain.bench.sheet import JobSheet, SheetPoint
from firmlever.domain.quantity import Band


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What a turn comes to as it stands."""

    out_ml: Band
    new_share: Band
    marks: tuple[Mark, ...]
    evidence: tuple[Evidence, ...]


def reckoned(sheet: JobSheet, point: SheetPoint, turn: Turn, unit: UnitMl) -> Reckoned:
    """Return what a turn at a screw comes to, by what a count brings there."""

    def out(count: int) -> Band:
        return out_ml(sheet, count, turn.cup, unit)

    now = out(turn.count)
    share = new_share(point.washout, now)
    marks = tuple(mark_at(seen, out(seen.count), point.strip, point.washout) for seen in turn.marks)
    return Reckoned(now, share, marks, evidence_at(sheet, point, turn, now, share))
