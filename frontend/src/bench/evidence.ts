// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Whether a screw is done, on three things that are looked at together. */
import type { TurnFacts } from "./facts";
import { PACES } from "./pot";
import type { Band, JobSheet, SheetPoint } from "./sheet";
import { FROM_OUTSIDE } from "./tube";

type Says = "yes" | "no" | "unknown";

/** One thing that speaks for or against a screw being done. */
export interface Evidence {
  readonly id: "share" | "look" | "volume" | "bubbles";
  readonly says: Says;
}

/** A bleed or a fill is done by what has come out and by strokes without a bubble, not by new fluid. */
export function evidenceAt(
  sheet: JobSheet,
  point: SheetPoint,
  turn: TurnFacts,
  { out, share }: { readonly out: Band; readonly share: Band },
): readonly Evidence[] {
  if (sheet.work !== "flush") {
    return [
      { id: "volume", says: volumeSays(point.volume_ml, out) },
      { id: "bubbles", says: cleanSays(turn, PACES[sheet.unit.name].set) },
    ];
  }
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

function volumeSays(wanted: Band, out: Band): Says {
  if (out.p05 >= wanted.p50) return "yes";
  return out.p95 < wanted.p50 ? "no" : "unknown";
}

/** Bubbles that came from outside the circuit do not begin the count anew. */
function cleanSays(turn: TurnFacts, wanted: number): Says {
  const isInside = turn.bubbles_at !== null && (turn.tube === null || !FROM_OUTSIDE.includes(turn.tube));
  const clean = isInside ? turn.count - (turn.bubbles_at ?? 0) : turn.count;
  if (clean >= wanted) return "yes";
  return isInside ? "no" : "unknown";
}
