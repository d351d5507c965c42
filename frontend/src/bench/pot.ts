// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/**
 * The reservoir: how many counts its filling lasts, learned from looks at the level.
 *
 * What a filling lasts is log-normal. It starts from the plan and the catch cup, and each look
 * at the level after some counts narrows it.
 */
import type { Posture } from "./event";
import { Z, type UnitMl } from "./readings";
import type { Band, JobSheet } from "./sheet";

export type Below = "min" | "port" | null;
export type Call = "not filled" | "fine" | "soon" | "watch" | "now" | "below min" | "port";

/**
 * Measured in a simulated workshop of 12,000 drawn jobs: at this many standard deviations the
 * level stayed above MIN (regression).
 */
const GUARD = 3.8;
/** What the side stand does to a filling beyond its tilt (judgement). */
const SIDE_STAND_SPREAD = 0.35;
/** What looks can never narrow away (judgement). */
const LEAST_SPREAD = 0.05;
const LEAST_LEVEL = 0.1;
const LEAST_GUARD = 0.05;
const SOON_SETS = 2;

/** One set, the least that can be done, and what the hand needs to stop (counts). */
interface Pace {
  readonly set: number;
  readonly least: number;
  readonly react: number;
}
export const PACES: Readonly<Record<"stroke" | "second", Pace>> = {
  stroke: { set: 5, least: 1, react: 0 },
  second: { set: 20, least: 2, react: 1 },
};

/** A look at the level: counts since the filling and the drop since, a share of MIN to MAX. */
interface Sighting {
  readonly counts: number;
  readonly drop: number;
}

/**
 * The reservoir as last seen; levels are shares of the way from MIN to MAX. Where fluid comes
 * up in it, shares are of the room below MAX instead. `share` null is not filled.
 */
export interface PotFacts {
  readonly share: number | null;
  readonly from_share: number | null;
  readonly since_look: number;
  readonly since_fill: number;
  readonly look: Sighting | null;
  /** The last looks of earlier fillings, added up. */
  readonly looks: Sighting & { readonly number: number };
}

/** What the pot gives yet; `next_set` is how many counts may be led before a look. */
export interface Gauge {
  readonly above_min_ml: Band | null;
  readonly left_ml: number;
  readonly counts_left: number;
  readonly next_set: number;
  readonly call: Call;
}

export const UNFILLED: PotFacts = {
  share: null,
  from_share: null,
  since_look: 0,
  since_fill: 0,
  look: null,
  looks: { number: 0, counts: 0, drop: 0 },
};

function plus(looks: PotFacts["looks"], look: Sighting | null): PotFacts["looks"] {
  if (look === null) return looks;
  return { number: looks.number + 1, counts: looks.counts + look.counts, drop: looks.drop + look.drop };
}

/** The pot after a filling to this share. */
export function filled(pot: PotFacts, share: number): PotFacts {
  return { ...UNFILLED, share, from_share: share, looks: plus(pot.looks, pot.look) };
}

/** The pot after a look at its level; before any count it corrects the filling. */
export function seen(pot: PotFacts, share: number): PotFacts {
  if (pot.from_share === null) return filled(pot, share);
  if (pot.since_fill === 0) return { ...pot, share, from_share: share };
  return { ...pot, share, since_look: 0, look: { counts: pot.since_fill, drop: pot.from_share - share } };
}

/** The pot where nothing learned at one screw holds at the next: it must be looked at first. */
export function atAnotherScrew(pot: PotFacts): PotFacts {
  return pot.share === null ? UNFILLED : { ...UNFILLED, share: 0, from_share: 0 };
}

/** The pot with nothing above the port. */
export function emptied(pot: PotFacts): PotFacts {
  return { ...UNFILLED, looks: plus(pot.looks, pot.look) };
}

/** The pot after so many more strokes or seconds. */
export function counted(pot: PotFacts, count: number): PotFacts {
  if (pot.share === null) return pot;
  return { ...pot, since_look: pot.since_look + count, since_fill: pot.since_fill + count };
}

/** A level as a share of what can be given from it. */
export function shareOf({ reservoir, direction }: JobSheet, to: "max" | "fill line" | number): number {
  const usable = reservoir.usable_ml.p50;
  const line = reservoir.fill_to_ml === null ? 1 : reservoir.fill_to_ml / usable;
  const share = to === "max" ? 1 : to === "fill line" ? line : to / usable;
  return direction === "up" ? 1 - share : share;
}

interface Reading {
  readonly sheet: JobSheet;
  readonly pot: PotFacts;
  readonly below: Below;
  readonly posture: Posture;
  readonly unit: UnitMl;
  readonly hasCup: boolean;
}

/** How far the pot is from its limit, at the bad end. */
export function gauge(reading: Reading): Gauge {
  const { sheet, pot, below, unit } = reading;
  if (pot.share === null) {
    return { above_min_ml: null, left_ml: 0, counts_left: 0, next_set: 0, call: callBelow(below) ?? "not filled" };
  }
  const error = sheet.reservoir.read_error_ml / (Z * sheet.reservoir.usable_ml.p50);
  const lasts = lasting(reading, error);
  const above_min_ml = aboveMin(sheet, pot, lasts, error);
  const under = callBelow(below);
  if (under !== null) return { above_min_ml, left_ml: 0, counts_left: 0, next_set: 0, call: under };
  const pace = PACES[sheet.unit.name];
  const safe = safeCounts(pot.share, lasts, error);
  const counts_left = Math.max(0, Math.floor(safe - pot.since_look - pace.react));
  const left_ml = Math.max(0, safe - pot.since_look) * unit.mean;
  const isFresh = pot.share > 0 && pot.since_look === 0 && pot.since_fill === 0;
  return { above_min_ml, left_ml, counts_left, ...callFor(pace, counts_left, isFresh) };
}

/** Counts from MAX to MIN: the logarithm's mean and standard deviation. */
interface Lasting {
  readonly log: number;
  readonly sd: number;
}

function lasting({ sheet, pot, posture, unit, hasCup }: Reading, error: number): Lasting {
  const isTilted = posture === "side stand";
  const full = fullMl(sheet.reservoir, isTilted ? sheet.reservoir.tilt_ml : 0);
  const own = unit.sd / unit.mean;
  const unitSd = hasCup ? own : Math.max(own, Math.log(sheet.unit.ml.p95 / sheet.unit.ml.p50) / Z);
  const standSd = isTilted ? SIDE_STAND_SPREAD : 0;
  let precision = 1 / (full.sd * full.sd + unitSd * unitSd + standSd * standSd);
  let log = Math.log(full.middle / unit.mean);
  const looks = plus(pot.looks, pot.look);
  if (looks.drop > 0) {
    const ratio = looks.drop / error;
    const weight = (ratio * ratio) / (2 * looks.number);
    const learned = Math.log(looks.counts / looks.drop);
    log = (precision * log + weight * learned) / (precision + weight);
    precision += weight;
  }
  return { log, sd: Math.sqrt(1 / precision + LEAST_SPREAD * LEAST_SPREAD) };
}

/** What a filling gives, and the standard deviation of its logarithm. */
function fullMl({ usable_ml: usable }: JobSheet["reservoir"], tiltMl: number): { middle: number; sd: number } {
  const middle = Math.max(usable.p50 - tiltMl, LEAST_LEVEL * usable.p50);
  const low = Math.max(usable.p05 - tiltMl, LEAST_LEVEL * middle);
  const guarded = Math.max(LEAST_GUARD, 1 - (GUARD * (1 - low / middle)) / Z);
  return { middle, sd: -Math.log(guarded) / GUARD };
}

function safeCounts(share: number, lasts: Lasting, error: number): number {
  if (share <= 0) return 0;
  const look = error / share;
  return share * Math.exp(lasts.log - GUARD * Math.sqrt(lasts.sd * lasts.sd + look * look));
}

function aboveMin(sheet: JobSheet, pot: PotFacts, lasts: Lasting, error: number): Band {
  const usable = sheet.reservoir.usable_ml.p50;
  const gone = pot.since_look / Math.exp(lasts.log);
  const left = (pot.share ?? 0) - gone;
  const share = sheet.direction === "up" ? 1 - left : left;
  const spread = gone * lasts.sd;
  const half = Z * Math.sqrt(error * error + spread * spread) * usable;
  const middle = share * usable;
  return { p05: middle - half, p50: middle, p95: middle + half };
}

function callFor(pace: Pace, left: number, isFresh: boolean): { call: Call; next_set: number } {
  if (left >= pace.least) {
    return { call: left >= SOON_SETS * pace.set ? "fine" : "soon", next_set: Math.min(pace.set, left) };
  }
  return isFresh ? { call: "watch", next_set: pace.least } : { call: "now", next_set: 0 };
}

function callBelow(below: Below): Call | null {
  return below === "min" ? "below min" : below;
}
