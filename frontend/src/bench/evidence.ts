// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Whether a screw is done, on three things that are looked at together. */
import type { TurnFacts } from "./facts";
import { PACES } from "./pot";
import type { Band, JobSheet } from "./sheet";
import { FROM_OUTSIDE } from "./tube";

type Says = "yes" | "no" | "unknown";

/** One thing that speaks for or against a screw being done. */
export interface Evidence {
  readonly id: "share" | "look" | "bubbles";
  readonly says: Says;
}

export function evidenceAt(sheet: JobSheet, turn: TurnFacts, share: Band): readonly Evidence[] {
  return [
    { id: "share", says: shareSays(sheet.target, share) },
    { id: "look", says: turn.look === null ? "unknown" : turn.look === "clear" ? "yes" : "no" },
    { id: "bubbles", says: bubblesSay(turn, PACES[sheet.unit.name].set) },
  ];
}

/** Whether no two of them contradict each other. */
export function isAgreed(evidence: readonly Evidence[]): boolean {
  const said = new Set(evidence.map((one) => one.says));
  return !(said.has("yes") && said.has("no"));
}

function shareSays(target: number, share: Band): Says {
  if (share.p05 >= target) return "yes";
  return share.p95 < target ? "no" : "unknown";
}

function bubblesSay(turn: TurnFacts, lately: number): Says {
  const isLate = turn.bubbles_at !== null && turn.count - turn.bubbles_at < lately;
  const isOutside = turn.tube !== null && FROM_OUTSIDE.includes(turn.tube);
  if (isLate && !isOutside) return "no";
  return turn.count > 0 ? "yes" : "unknown";
}
