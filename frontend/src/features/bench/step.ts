// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The one thing that comes next, from the state of the job and what is going on at this device. */
import type { BenchEvent } from "../../bench/event";
import { effective } from "../../bench/order";
import { SET } from "../../bench/pot";
import type { Gate, JobSheet } from "../../bench/sheet";
import type { BenchState, Turn } from "../../bench/state";

export type Step =
  | { readonly kind: "gate"; readonly gate: Gate; readonly number: number; readonly of: number }
  | { readonly kind: "draw down" }
  | { readonly kind: "fill" }
  | { readonly kind: "choose screw"; readonly next: number | null }
  | { readonly kind: "top up" }
  | { readonly kind: "sample"; readonly size: number }
  | { readonly kind: "cup" }
  | { readonly kind: "set"; readonly size: number }
  | { readonly kind: "judge" }
  | { readonly kind: "ready" }
  | { readonly kind: "first stop" }
  | { readonly kind: "rechecks" }
  | { readonly kind: "over" };

/** What was waved aside at this device, by screw. */
export interface Skipped {
  readonly samples: readonly number[];
  readonly cups: readonly number[];
  /** Screws where somebody chose to go on although the figures say done. */
  readonly more: readonly number[];
}

export const SAMPLE_ML = 3;
const FEWEST_AFTER_TARGET = 3;

export function nextStep(
  sheet: JobSheet,
  state: BenchState,
  events: readonly BenchEvent[],
  skipped: Skipped,
): Step {
  switch (state.phase) {
    case "before opening":
    case "before rolling":
      return gateStep(sheet, state);
    case "working":
      return workStep(sheet, state, events, skipped);
    case "ready to roll":
      return { kind: "first stop" };
    case "first stop done":
      return { kind: "rechecks" };
    case "closed":
    case "given up":
      return { kind: "over" };
  }
}

/** Unanswered gates first, then those that were answered with no. */
function gateStep(sheet: JobSheet, state: BenchState): Step {
  const stage = state.phase === "before opening" ? "opening" : "rolling";
  const gates = sheet.gates.filter((gate) => gate.before === stage);
  const open = gates.filter((gate) => state.gates_open.includes(gate.id));
  const gate = open.find((one) => state.gates[one.id] === undefined) ?? open[0];
  if (gate === undefined) return { kind: "ready" };
  return { kind: "gate", gate, number: gates.length - open.length + 1, of: gates.length };
}

function workStep(sheet: JobSheet, state: BenchState, events: readonly BenchEvent[], skipped: Skipped): Step {
  if (state.pot.call === "not filled") return isDrawnDown(events) ? { kind: "fill" } : { kind: "draw down" };
  if (state.pot.call === "port" || state.pot.call === "below min") return { kind: "top up" };
  const place = state.point;
  const turn = place === null ? undefined : state.turns[place];
  if (place === null || turn === undefined || turn.is_shut) {
    const next = state.turns.findIndex((one) => !one.is_shut);
    return { kind: "choose screw", next: next < 0 ? null : next };
  }
  const size = setSize(sheet, state, turn, events);
  if (size === 0) return { kind: "top up" };
  if (turn.count > 0 && turn.cup_ml === null && !skipped.cups.includes(place)) return { kind: "cup" };
  if (turn.count === 0 && turn.sample_ml === 0 && !skipped.samples.includes(place)) {
    const strokes = Math.max(1, Math.ceil(SAMPLE_ML / state.unit_ml.mean));
    return { kind: "sample", size: Math.min(strokes, size) };
  }
  if (looksDone(turn) && !skipped.more.includes(place)) return { kind: "judge" };
  return { kind: "set", size };
}

/** The figures or the tube say that this screw may be done. */
function looksDone(turn: Turn): boolean {
  const isPredicted = turn.count > 0 && turn.count >= turn.total_count.p50;
  const isSeen = turn.evidence.some((one) => one.id === "look" && one.says === "yes");
  return isPredicted || isSeen;
}

/** Never more than the reservoir surely holds; 0 when it must be topped up first. */
function setSize(sheet: JobSheet, state: BenchState, turn: Turn, events: readonly BenchEvent[]): number {
  const usual = SET[sheet.unit.name];
  const left = state.pot.counts_left;
  const wanted = turn.total_count.p50 - turn.count;
  const size = Math.min(usual, wanted > 0 ? wanted : FEWEST_AFTER_TARGET);
  // A reservoir that holds less than a set when full is emptied in smaller ones, one by one.
  if (left < size) return isFresh(events) ? Math.max(1, left) : 0;
  return state.pot.call === "now" && !isFresh(events) ? 0 : size;
}

function isFresh(events: readonly BenchEvent[]): boolean {
  const last = effective(events).findLast((event) => ["set_done", "topped_up", "level_read"].includes(event.kind));
  return last !== undefined && last.kind !== "set_done";
}

function isDrawnDown(events: readonly BenchEvent[]): boolean {
  return effective(events).some((event) => event.kind === "drawn_down");
}
