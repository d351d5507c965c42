// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Whether a screw is done, on three things that are looked at together. */
import type { TurnFacts } from "./facts";
import type { Band, JobSheet } from "./sheet";
import type { Evidence } from "./state";
import { FROM_OUTSIDE } from "./tube";

const LATELY = 5;

type Says = Evidence["says"];

export function evidenceAt(sheet: JobSheet, turn: TurnFacts, share: Band): readonly Evidence[] {
  return [
    { id: "share", says: shareSays(sheet.target, share) },
    { id: "look", says: turn.look === null ? "unknown" : turn.look === "clear" ? "yes" : "no" },
    { id: "bubbles", says: bubblesSay(turn) },
  ];
}

export function isAgreed(evidence: readonly Evidence[]): boolean {
  const said = new Set(evidence.map((one) => one.says));
  return !(said.has("yes") && said.has("no"));
}

function shareSays(target: number, share: Band): Says {
  if (share.p05 >= target) return "yes";
  return share.p95 < target ? "no" : "unknown";
}

function bubblesSay(turn: TurnFacts): Says {
  const isLate = turn.bubbles_at !== null && turn.count - turn.bubbles_at < LATELY;
  if (isLate && !(turn.tube !== null && FROM_OUTSIDE.includes(turn.tube))) return "no";
  return turn.count > 0 ? "yes" : "unknown";
}
