// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Lever tests: have readings judged, keep them, and mark this machine's good state. */
import { request, type Answer } from "../lib/request";
import { both, listOf, number, oneOf, orNull, record, text, whole, yesNo, type Of } from "../lib/validate";
import { keptReceipt } from "./kept";
import { circuitPath } from "./paths";
import { assumed } from "./plan";
import { band } from "./shapes";

export const SET_KINDS = ["first", "pumped", "wedged"] as const;
const setKind = oneOf(...SET_KINDS);
export type SetKind = Of<typeof setKind>;

/** One run of readings: force in newtons, travel in millimetres. */
const readingSet = record({ kind: setKind, force_n: listOf(number), travel_mm: listOf(number) });
export type ReadingSet = Of<typeof readingSet>;

/** Readings against time at one force. */
const hold = record({ pace: oneOf("slow", "fast"), force_n: number, seconds: listOf(number), travel_mm: listOf(number) });
export type Hold = Of<typeof hold>;

const readings = record({
  before: listOf(readingSet),
  after: orNull(listOf(readingSet)),
  ruler_mm: number,
  altitude_m: number,
  holds: listOf(hold),
});
export type Readings = Of<typeof readings>;

const share = record({ part: text, words: text, travel_mm: band });
export type TravelShare = Of<typeof share>;

const held = record({
  pace: oneOf("slow", "fast"),
  at_n: number,
  seconds: number,
  sink_mm_min: band,
  sink_ml_min: band,
  settled_mm: band,
  sinks: yesNo,
});

const nextSet = record({ kind: setKind, words: text, air_width_ml: number });
export type NextSet = Of<typeof nextSet>;

export const leverResult = record({
  format: oneOf(1),
  kind: oneOf("lever test"),
  bike: text,
  circuit: text,
  on: text,
  air_ml: band,
  air_after_ml: orNull(band),
  left_ml: orNull(band),
  clearance_ml: band,
  air_and_clearance_ml: band,
  together: number,
  at_n: number,
  budget: listOf(share),
  holds: listOf(held),
  says: listOf(text),
  cannot_tell: listOf(text),
  next_sets: listOf(nextSet),
  assumed: listOf(assumed),
  cautions: listOf(text),
  sources: listOf(text),
});
export type LeverResult = Of<typeof leverResult>;

const head = record({ id: text, made_at: text, who: text, job_id: orNull(text), machine_revision: whole });
const line = record({
  air_ml: band,
  air_after_ml: orNull(band),
  left_ml: orNull(band),
  clearance_ml: band,
  air_and_clearance_ml: band,
  together: number,
});
const leverLine = both(head, line);
export type LeverLine = Of<typeof leverLine>;

export const leverList = record({
  tests: listOf(leverLine),
  baseline: orNull(text),
  baselines: listOf(record({ test: text, marked_at: text, who: text })),
});
export type LeverList = Of<typeof leverList>;

export const keptLever = both(head, record({ readings, document: leverResult }));
export type KeptLever = Of<typeof keptLever>;

export interface Keeping {
  readonly id: string;
  readonly who: string;
  readonly job_id: string | null;
}

function testsPath(machine: string, circuit: string): string {
  return `${circuitPath(machine, circuit)}/lever-tests`;
}

export function judgeLever(machine: string, circuit: string, read: Readings): Answer<LeverResult> {
  const path = `${circuitPath(machine, circuit)}/lever-test`;
  return request(path, { method: "POST", json: read, check: leverResult });
}

/** Keep readings under an id made here; sent twice, they are kept once. */
export function keepLever(
  machine: string,
  circuit: string,
  read: Readings,
  keeping: Keeping,
): Answer<Of<typeof keptReceipt>> {
  return request(testsPath(machine, circuit), { method: "POST", json: { ...read, ...keeping }, check: keptReceipt });
}

export function listLevers(machine: string, circuit: string, signal?: AbortSignal): Answer<LeverList> {
  return request(testsPath(machine, circuit), { check: leverList, signal });
}

export function getLever(machine: string, circuit: string, id: string, signal?: AbortSignal): Answer<KeptLever> {
  return request(`${testsPath(machine, circuit)}/${encodeURIComponent(id)}`, { check: keptLever, signal });
}

export function markGood(
  machine: string,
  circuit: string,
  id: string,
  who: string,
): Answer<Of<typeof keptReceipt>> {
  const path = `${testsPath(machine, circuit)}/${encodeURIComponent(id)}/baseline`;
  return request(path, { method: "PUT", json: { who }, check: keptReceipt });
}
