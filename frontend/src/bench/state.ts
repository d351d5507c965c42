// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the facts come to: the state document, the same in Python and here. */
import { airSeen, type AirSeen } from "./air";
import type { BenchEvent, FollowUpAnswer } from "./event";
import { evidenceAt, isAgreed, type Evidence } from "./evidence";
import type { Facts, TurnFacts } from "./facts";
import { cupsFor, fold, unitAt } from "./fold";
import { markAt, newShare, type Mark } from "./marks";
import { gauge, type Gauge, type PotFacts } from "./pot";
import { outMl, totalCount, type UnitMl } from "./readings";
import type { Band, JobSheet, SheetPoint } from "./sheet";
import { dueAt, gatesInTheWay, phaseOf, stillOpen, type Phase } from "./stages";
import type { Verdict } from "./tube";

export interface Turn {
  readonly count: number;
  readonly out_ml: Band;
  readonly new_share: Band;
  readonly total_count: Band;
  readonly cup_ml: number | null;
  readonly cup_at: number | null;
  readonly sample_ml: number;
  readonly marks: readonly Mark[];
  readonly tube: Verdict | null;
  readonly evidence: readonly Evidence[];
  readonly agrees: boolean;
  readonly is_begun: boolean;
  readonly is_shut: boolean;
  readonly is_done: boolean;
  readonly reason: string | null;
}

export type Pot = Gauge & PotFacts;

export interface FollowUpState {
  readonly id: string;
  readonly due_at: string | null;
  readonly answer: FollowUpAnswer | null;
  readonly reason: string | null;
}

type Kept =
  | "is_paused"
  | "posture"
  | "leader"
  | "work"
  | "work_why"
  | "gates"
  | "point"
  | "suction"
  | "bottles"
  | "cycled"
  | "doubts"
  | "refused"
  | "ended"
  | "notes"
  | "measured"
  | "photos"
  | "signed";

export interface BenchState extends Pick<Facts, Kept> {
  readonly phase: Phase;
  readonly gates_open: readonly string[];
  readonly unit_ml: UnitMl;
  readonly pot: Pot;
  readonly turns: readonly Turn[];
  readonly air: readonly AirSeen[];
  readonly follow_ups: readonly FollowUpState[];
  readonly open: readonly string[];
}

/** The state of a run from its log. */
export function stateOf(sheet: JobSheet, events: Iterable<BenchEvent>): BenchState {
  return stateDocument(sheet, fold(sheet, events));
}

export function stateDocument(sheet: JobSheet, facts: Facts): BenchState {
  const unit = unitAt(sheet, facts, facts.point);
  const turns = sheet.points.map((one, place) => turnOf(sheet, one, facts.turns[place], unitAt(sheet, facts, place)));
  const marks = turns.map((turn) => turn.marks);
  const { is_paused, posture, leader, work, work_why, gates, point, suction } = facts;
  const { bottles, cycled, doubts, refused, ended, notes, measured, photos, signed } = facts;
  return {
    phase: phaseOf(sheet, facts),
    is_paused,
    posture,
    leader,
    work,
    work_why,
    gates,
    gates_open: gatesInTheWay(sheet, facts),
    point,
    suction,
    unit_ml: unit,
    pot: { ...gaugeNow(sheet, facts, unit), ...facts.pot },
    turns,
    air: airSeen(sheet, facts.turns, marks),
    bottles,
    cycled,
    doubts,
    refused,
    ended,
    follow_ups: followUps(sheet, facts),
    notes,
    measured,
    photos,
    signed,
    open: stillOpen(sheet, facts),
  };
}

function gaugeNow(sheet: JobSheet, facts: Facts, unit: UnitMl): Gauge {
  const { pot, below, posture } = facts;
  const hasCup = cupsFor(sheet, facts, facts.point).length > 0;
  return gauge({ sheet, pot, below, posture, unit, hasCup });
}

function turnOf(sheet: JobSheet, point: SheetPoint, turn: TurnFacts | undefined, unit: UnitMl): Turn {
  if (turn === undefined) throw new Error("a screw of the sheet without a turn");
  const out_ml = outMl(sheet, turn.count, turn.cup, unit);
  const new_share = newShare(point.washout, out_ml);
  const evidence = evidenceAt(sheet, point, turn, { out: out_ml, share: new_share });
  const { count, sample_ml, tube, is_begun, is_shut, is_done, reason } = turn;
  return {
    count,
    out_ml,
    new_share,
    total_count: totalCount(sheet, point, turn.cup, unit),
    cup_ml: turn.cup?.ml ?? null,
    cup_at: turn.cup?.at ?? null,
    sample_ml,
    marks: turn.marks.map((mark) => {
      const out = outMl(sheet, mark.count, turn.cup, unit);
      return markAt(mark, out, point.strip, point.washout);
    }),
    tube,
    evidence,
    agrees: isAgreed(evidence),
    is_begun,
    is_shut,
    is_done,
    reason,
  };
}

function followUps(sheet: JobSheet, facts: Facts): readonly FollowUpState[] {
  return sheet.follow_ups.map(({ id, after_hours }) => ({
    id,
    due_at: dueAt(facts, after_hours),
    answer: facts.rechecks[id]?.answer ?? null,
    reason: facts.rechecks[id]?.reason ?? null,
  }));
}
