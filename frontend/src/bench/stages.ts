// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Where a job stands: its phase, the gates in its way and its follow-ups. */
import type { End } from "./event";
import type { Facts, TurnFacts } from "./facts";
import type { Gate, JobSheet } from "./sheet";

export type Phase = "before opening" | "working" | "before rolling" | End;

const ENDS: readonly End[] = ["given up", "closed", "first stop done", "ready to roll"];
const HOUR_MS = 3_600_000;

/** The furthest end reached, or else what has to be done next. */
export function phaseOf(sheet: JobSheet, facts: Facts): Phase {
  const end = ENDS.find((one) => facts.ended[one] !== undefined);
  if (end !== undefined) return end;
  if (!facts.is_started || gatesOpen(sheet, facts, "opening").length > 0) return "before opening";
  return areScrewsSettled(facts) ? "before rolling" : "working";
}

/** Whether every screw is shut, and done or left with a reason. */
export function areScrewsSettled(facts: Facts): boolean {
  return facts.turns.every(isSettled);
}

/** Whether the screw is shut and either done or left with a reason. */
export function isSettled(turn: TurnFacts): boolean {
  return turn.is_shut && (turn.is_done || turn.reason !== null);
}

/** The gates of a stage, and of a screw, without an answer that lets pass. */
export function gatesOpen(
  sheet: JobSheet,
  facts: Pick<Facts, "gates">,
  before: Gate["before"],
  point: number | null = null,
): readonly string[] {
  return sheet.gates.flatMap((gate) => {
    const answer = facts.gates[gate.id]?.answer;
    return gate.before === before && gate.point === point && (answer === undefined || answer === "no") ? [gate.id] : [];
  });
}

/** The open gates of the present stage. */
export function gatesInTheWay(sheet: JobSheet, facts: Facts): readonly string[] {
  const phase = phaseOf(sheet, facts);
  if (phase === "before opening") return gatesOpen(sheet, facts, "opening");
  if (phase === "working" && facts.point !== null && facts.turns[facts.point]?.is_shut === false) {
    return gatesOpen(sheet, facts, "screw", facts.point);
  }
  return phase === "before rolling" ? gatesOpen(sheet, facts, "rolling") : [];
}

/** Whether a follow-up is neither firm nor waived. */
export function areFollowUpsOpen(sheet: JobSheet, facts: Facts): boolean {
  return sheet.follow_ups.some(({ id }) => {
    const answer = facts.rechecks[id]?.answer;
    return answer !== "firm" && answer !== "waived";
  });
}

/** When a follow-up falls due, once the first stop is done. */
export function dueAt(facts: Facts, afterHours: number): string | null {
  const first = facts.ended["first stop done"];
  return first === undefined ? null : new Date(Date.parse(first.at) + afterHours * HOUR_MS).toISOString();
}

/** The codes of everything that is still open, whatever the phase. */
export function stillOpen(sheet: JobSheet, facts: Facts): readonly string[] {
  const gates = [...gatesOpen(sheet, facts, "opening"), ...gatesOpen(sheet, facts, "rolling")];
  const isOpen = {
    gates: gates.length > 0,
    screws: !areScrewsSettled(facts),
    level: facts.below !== null,
    "first stop": facts.ended["first stop done"] === undefined,
    "follow-ups": areFollowUpsOpen(sheet, facts),
    "not signed": facts.signed === null,
  };
  return Object.entries(isOpen).flatMap(([code, holds]) => (holds ? [code] : []));
}
