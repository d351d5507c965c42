// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The one thing that comes next, from the state of the job and what is going on at this device. */
import type { BenchEvent } from "../../bench/event";
import { effective } from "../../bench/order";
import type { Gate, JobSheet } from "../../bench/sheet";
import { gatesOpen } from "../../bench/stages";
import type { BenchState, Turn } from "../../bench/state";

export interface GateStep {
  readonly kind: "gate";
  readonly gate: Gate;
  readonly number: number;
  readonly of: number;
}

export type Step =
  | GateStep
  | { readonly kind: "draw down" }
  | { readonly kind: "fill" }
  | { readonly kind: "choose screw"; readonly next: number | null }
  | { readonly kind: "top up" }
  | { readonly kind: "sample"; readonly size: number }
  | { readonly kind: "cup" }
  | { readonly kind: "set"; readonly size: number }
  | { readonly kind: "judge"; readonly size: number }
  | { readonly kind: "cycle unit" }
  | { readonly kind: "second pass" }
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
  /** The ABS unit was left as it is, or its second pass was begun. */
  readonly unit: boolean;
}

export const SAMPLE_ML = 3;
/** Less in the cup cannot be read well (judgement). */
const LEAST_CUP_ML = 3;
const FEWEST_AFTER_TARGET = 3;

export function nextStep(
  sheet: JobSheet,
  state: BenchState,
  events: readonly BenchEvent[],
  skipped: Skipped,
): Step {
  switch (state.phase) {
    case "before opening":
      return gateStep(sheet, state);
    case "before rolling":
      return unitStep(sheet, state, events, skipped) ?? gateStep(sheet, state);
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

/** In a flush, with every screw shut and no question answered yet, the ABS unit's turn comes between two passes. */
function unitStep(sheet: JobSheet, state: BenchState, events: readonly BenchEvent[], skipped: Skipped): Step | null {
  const isAsked = sheet.gates.some(({ id, before }) => before === "rolling" && state.gates[id] !== undefined);
  if (sheet.work !== "flush" || !sheet.has_modulator || skipped.unit || isAsked || isTested(events) || isBelow(state)) return null;
  if (state.cycled.length === 0) return { kind: "cycle unit" };
  const latest = effective(events).findLast(({ kind }) => kind === "unit_cycled" || kind === "set_done");
  return latest?.kind === "unit_cycled" ? { kind: "second pass" } : null;
}

/** Whoever measured the lever after the last screw was shut has gone on from the unit already. */
function isTested(events: readonly BenchEvent[]): boolean {
  const latest = effective(events).findLast(({ kind }) => kind === "shut" || kind === "unit_cycled" || kind === "measured");
  return latest?.kind === "measured";
}

/** Unanswered gates first, then those that were answered with no. */
function gateStep(sheet: JobSheet, state: BenchState): Step {
  if (isBelow(state)) return { kind: "top up" };
  const stage = state.phase === "before opening" ? "opening" : "rolling";
  const gates = sheet.gates.filter((gate) => gate.before === stage);
  const open = gates.filter((gate) => state.gates_open.includes(gate.id));
  const gate = open.find((one) => state.gates[one.id] === undefined) ?? open[0];
  if (gate === undefined) return { kind: "ready" };
  return { kind: "gate", gate, number: gates.length - open.length + 1, of: gates.length };
}

function workStep(sheet: JobSheet, state: BenchState, events: readonly BenchEvent[], skipped: Skipped): Step {
  const isFlush = sheet.work === "flush";
  if (state.pot.call === "not filled") return !isFlush || isDrawnDown(events) ? { kind: "fill" } : { kind: "draw down" };
  if (isBelow(state)) return { kind: "top up" };
  const place = state.point;
  const turn = place === null ? undefined : state.turns[place];
  if (place === null || turn === undefined || turn.is_shut) {
    const next = state.turns.findIndex((one) => !one.is_shut);
    return { kind: "choose screw", next: next < 0 ? null : next };
  }
  const asked = screwGate(sheet, state, place, "screw");
  if (asked !== null) return asked;
  const size = setSize(state, turn);
  const isJudged = looksDone(turn) && !skipped.more.includes(place);
  if (isJudged) {
    const last = screwGate(sheet, state, place, "shutting");
    if (last !== null) return last;
  }
  if (size === 0 && !isJudged) return { kind: "top up" };
  const isReadable = turn.out_ml.p50 - turn.sample_ml >= LEAST_CUP_ML;
  if (isReadable && turn.cup_ml === null && !skipped.cups.includes(place)) return { kind: "cup" };
  const strokes = Math.max(1, Math.ceil(SAMPLE_ML / state.unit_ml.mean));
  if (isFlush && turn.count < strokes && turn.sample_ml === 0 && !skipped.samples.includes(place)) {
    return { kind: "sample", size: Math.min(strokes - turn.count, size) };
  }
  if (isJudged) return { kind: "judge", size };
  return { kind: "set", size };
}

/** What a screw's own work asks first, or before it may be called done: postures, steps of a fill. */
export function screwGate(sheet: JobSheet, state: BenchState, place: number, before: "screw" | "shutting"): GateStep | null {
  const gates = sheet.gates.filter((gate) => gate.before === before && gate.point === place);
  const open = gatesOpen(sheet, state, before, place);
  const gate = gates.find(({ id }) => open.includes(id));
  return gate === undefined ? null : { kind: "gate", gate, number: gates.length - open.length + 1, of: gates.length };
}

function isBelow({ pot }: BenchState): boolean {
  return pot.call === "port" || pot.call === "below min";
}

/** The figures or the tube say that this screw may be done, and nothing says no. */
export function looksDone(turn: Turn): boolean {
  if (turn.evidence.some((one) => one.says === "no")) return false;
  const isPredicted = turn.count > 0 && turn.count >= turn.total_count.p50;
  const clean = turn.evidence.find((one) => one.id === "bubbles")?.says === "yes";
  if (turn.evidence.some((one) => one.id === "volume")) return isPredicted && clean;
  const isSeen = turn.evidence.some((one) => one.id === "look" && one.says === "yes");
  return isPredicted || isSeen;
}

/** Never more than the reservoir vouches for; 0 when it must be seen to first. */
function setSize(state: BenchState, turn: Turn): number {
  const wanted = turn.total_count.p50 - turn.count;
  return Math.min(state.pot.next_set, wanted > 0 ? wanted : FEWEST_AFTER_TARGET);
}

function isDrawnDown(events: readonly BenchEvent[]): boolean {
  return effective(events).some((event) => event.kind === "drawn_down");
}
