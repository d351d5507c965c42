// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** What somebody is still writing or reading off; it outlives a reload and a stopped server. */
import { forget, recall, remember } from "./lib/storage";
import { listOf, mapOf, number, oneOf, orNull, record, text, whole, yesNo, type Of } from "./lib/validate";

const draft = record({ read_revision: whole, text });
/** A text that is not saved, and the revision it began from. */
export type Draft = Of<typeof draft>;

function keyOf(id: string): string {
  return `draft of ${id}`;
}

export function recallDraft(id: string): Draft | null {
  return recall(keyOf(id), orNull(draft), null);
}

/** False where this browser will not keep it. */
export function keepDraft(id: string, kept: Draft): boolean {
  return remember(keyOf(id), kept);
}

export function dropDraft(id: string): void {
  forget(keyOf(id));
}

const leverRow = record({ at: text, travel: text });
/** A pair as it was typed: the force of a pull, or the seconds of a hold, and the travel. */
export type LeverRow = Of<typeof leverRow>;

const leverSet = record({
  kind: oneOf("first", "pumped", "wedged", "hold", "hold fast"),
  /** The one force of a hold; empty for a pull. */
  held: text,
  rows: listOf(leverRow),
});
export type LeverSet = Of<typeof leverSet>;

const leverDraft = record({
  /** What it will be kept under; null until it is sent. */
  id: orNull(text),
  scale: oneOf("N", "kg", "lb"),
  measures: oneOf("metric", "imperial"),
  sets: listOf(leverSet),
  ruler: text,
  altitude: text,
  /** The kept test it is compared with. */
  against: orNull(text),
});
/** Readings at a lever that are not kept yet, with the units they were typed in. */
export type LeverDraft = Of<typeof leverDraft>;

function leverKey(machine: string, circuit: string): string {
  return `lever draft of ${machine} ${circuit}`;
}

export function recallLeverDraft(machine: string, circuit: string): LeverDraft | null {
  return recall(leverKey(machine, circuit), orNull(leverDraft), null);
}

/** False where this browser will not keep it. */
export function keepLeverDraft(machine: string, circuit: string, kept: LeverDraft): boolean {
  return remember(leverKey(machine, circuit), kept);
}

export function dropLeverDraft(machine: string, circuit: string): void {
  forget(leverKey(machine, circuit));
}

const lookDraft = record({
  /** What it will be kept under; null until it is sent. */
  id: orNull(text),
  on: text,
  measure: oneOf("level_share", "below_max_mm", "level_ml"),
  share: number,
  level: text,
  pads: mapOf(record({ thin: text, other: text })),
  poured: text,
  km: text,
  isOnSide: yesNo,
  hasNewPads: yesNo,
});
/** A look at a level that is not kept yet, as it was typed. */
export type LookDraft = Of<typeof lookDraft>;

/** Each set of units has its draft, so that no figure is taken for another. */
function lookKey(machine: string, circuit: string, measures: string): string {
  return `look draft of ${machine} ${circuit} ${measures}`;
}

export function recallLookDraft(machine: string, circuit: string, measures: string): LookDraft | null {
  return recall(lookKey(machine, circuit, measures), orNull(lookDraft), null);
}

/** False where this browser will not keep it. */
export function keepLookDraft(machine: string, circuit: string, measures: string, kept: LookDraft): boolean {
  return remember(lookKey(machine, circuit, measures), kept);
}

export function dropLookDraft(machine: string, circuit: string, measures: string): void {
  forget(lookKey(machine, circuit, measures));
}
