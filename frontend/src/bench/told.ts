// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the facts come to: the state document. */
import { evidenceAt, isAgreed } from "./evidence";
import type { Facts, TurnFacts } from "./facts";
import { newShare, outMl, totalCount } from "./out";
import { potNow } from "./pot";
import type { JobSheet, SheetPoint } from "./sheet";
import { dueAt, stageOf, type Stage } from "./stages";
import type { BenchState, FollowUpState, Turn } from "./state";
import { correctedUnit, guardUnit, type UnitMl } from "./unit";

export function unitNow(sheet: JobSheet, facts: Facts): UnitMl {
  return correctedUnit(
    sheet,
    facts.turns.flatMap((turn) => (turn.cup === null ? [] : [turn.cup])),
  );
}

export function toldOf(sheet: JobSheet, facts: Facts): BenchState {
  const stage = stageOf(sheet, facts);
  const unit_ml = unitNow(sheet, facts);
  const guard_unit_ml = guardUnit(sheet, unit_ml);
  const { is_paused, posture, leader, work, work_why, gates, point } = facts;
  const { cycled, doubts, refused, ended, notes, measured, photos, signed } = facts;
  const follow_ups = followUps(sheet, facts);
  return {
    phase: stage.phase,
    is_paused,
    posture,
    leader,
    work,
    work_why,
    gates,
    gates_open: stage.gates_open,
    point,
    unit_ml,
    guard_unit_ml,
    pot: potNow(sheet, facts.pot, facts.below, unit_ml, guard_unit_ml),
    turns: sheet.points.map((one, place) => turnOf(sheet, one, facts.turns[place], unit_ml)),
    cycled,
    doubts,
    refused,
    ended,
    follow_ups,
    notes,
    measured,
    photos,
    signed,
    open: openCodes(stage, facts, follow_ups),
  };
}

function turnOf(sheet: JobSheet, point: SheetPoint, turn: TurnFacts | undefined, unit: UnitMl): Turn {
  if (turn === undefined) throw new Error("a sheet point without a turn");
  const out_ml = outMl(sheet, turn, unit);
  const new_share = newShare(point.washout, out_ml);
  const evidence = evidenceAt(sheet, turn, new_share);
  return {
    count: turn.count,
    out_ml,
    new_share,
    total_count: totalCount(sheet, point, turn, unit),
    cup_ml: turn.cup?.ml ?? null,
    cup_at: turn.cup?.at ?? null,
    sample_ml: turn.sample_ml,
    marks: turn.marks,
    tube: turn.tube,
    evidence,
    agrees: isAgreed(evidence),
    is_begun: turn.is_begun,
    is_shut: turn.is_shut,
    is_done: turn.is_done,
    reason: turn.reason,
  };
}

function followUps(sheet: JobSheet, facts: Facts): readonly FollowUpState[] {
  const first = facts.ended["first stop done"]?.at;
  return sheet.follow_ups.map(({ id, after_hours }) => ({
    id,
    due_at: dueAt(first, after_hours),
    answer: facts.rechecked[id]?.answer ?? null,
    reason: facts.rechecked[id]?.reason ?? null,
  }));
}

function openCodes(stage: Stage, facts: Facts, follow_ups: readonly FollowUpState[]): readonly string[] {
  const codes: string[] = [];
  if (stage.gates_open.length > 0) codes.push("gates");
  if (facts.turns.some((turn) => !turn.is_shut)) codes.push("screws");
  if (stage.follow_ups_open && follow_ups.length > 0) codes.push("follow-ups");
  if (facts.signed === null) codes.push("not signed");
  return codes;
}
