// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Where the job stands: its phase and the gates that are still open in it. */
import type { Facts } from "./facts";
import type { JobSheet } from "./sheet";
import type { Phase } from "./state";

const HOUR_MS = 3_600_000;

export interface Stage {
  readonly phase: Phase;
  readonly gates_open: readonly string[];
  readonly follow_ups_open: boolean;
}

export function stageOf(sheet: JobSheet, facts: Facts): Stage {
  const phase = phaseOf(sheet, facts);
  const before = phase === "before opening" ? "opening" : phase === "before rolling" ? "rolling" : null;
  return {
    phase,
    gates_open: before === null ? [] : openGates(sheet, facts, before),
    follow_ups_open: sheet.follow_ups.some(({ id }) => {
      const answer = facts.rechecked[id]?.answer;
      return answer !== "firm" && answer !== "waived";
    }),
  };
}

function phaseOf(sheet: JobSheet, facts: Facts): Phase {
  for (const end of ["given up", "closed", "first stop done", "ready to roll"] as const) {
    if (facts.ended[end] !== undefined) return end;
  }
  if (!facts.is_started || openGates(sheet, facts, "opening").length > 0) return "before opening";
  const isAllShut = facts.turns.every((turn) => turn.is_shut && (turn.is_done || turn.reason !== null));
  return isAllShut ? "before rolling" : "working";
}

function openGates(sheet: JobSheet, facts: Facts, before: "opening" | "rolling"): readonly string[] {
  return sheet.gates.flatMap((gate) => {
    const answer = facts.gates[gate.id]?.answer;
    return gate.before === before && (answer === undefined || answer === "no") ? [gate.id] : [];
  });
}

/** When a follow-up falls due: so many hours after the first stop. */
export function dueAt(first: string | undefined, hours: number): string | null {
  return first === undefined ? null : new Date(Date.parse(first) + hours * HOUR_MS).toISOString();
}
