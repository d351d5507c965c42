// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Where the fluid sat that somebody marked in the tube. */
import type { Look } from "./event";
import type { Band, Strip, Washout } from "./sheet";

export const NEW = "new";
/** An origin that never reaches this share is not seen in a tube (judgement). */
const SEEN = 0.1;
/** The second origin is named too from this part of the first one's score on (judgement). */
const SECOND_COUNTS = 0.5;
const HARDLY_OLD = 0.02;
const SURELY_NEW = 0.9;
const SURELY_OLD = 0.5;

/** A place and the share of the old fluid that comes from it. */
export interface Origin {
  readonly name: string;
  readonly share: number;
}

/** What was seen, and after how many counts at its screw. */
export interface Noticed {
  readonly event: string;
  readonly look: Look;
  readonly count: number;
}

export interface Mark {
  readonly event: string;
  readonly look: Look;
  readonly at_ml: Band;
  readonly origins: readonly Origin[];
  readonly named: readonly string[];
  readonly disagrees: "dark though new" | "clear though old" | null;
}

/** What a mark says, made when so much had come out of a screw. */
export function markAt({ event, look }: Noticed, out: Band, strip: Strip, washout: Washout): Mark {
  const means = meansOver(strip, out);
  const olds = means.filter((one) => one.name !== NEW);
  const old = sumInOrder(olds.map((one) => one.share));
  const origins = olds.map(({ name, share }) => ({ name, share: old > 0 ? share / old : 0 }));
  const disagrees = disagreement(look, newShare(washout, out));
  return { event, look, at_ml: out, origins, named: namedOf(strip, means, old), disagrees };
}

function sumInOrder(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** Each origin's mean share over the slices that may be at the screw. */
function meansOver(strip: Strip, out: Band): readonly Origin[] {
  const last = strip.shares.length - 1;
  const first = Math.min(Math.floor(out.p05 / strip.slice_ml), last);
  const end = Math.max(first, Math.min(Math.ceil(out.p95 / strip.slice_ml) - 1, last));
  const slices = strip.shares.slice(first, end + 1);
  return strip.origins.map((name, column) => ({
    name,
    share: sumInOrder(slices.map((shares) => shares[column] ?? 0)) / slices.length,
  }));
}

/**
 * Where the fluid sat. People mark where the darkness of a place is at its height, so what counts
 * is how near a place is to its own height, weighed by how much of it there is.
 */
function namedOf(strip: Strip, means: readonly Origin[], old: number): readonly string[] {
  const scores = means.flatMap(({ name, share }, column) => {
    const height = strip.shares.reduce((most, shares) => Math.max(most, shares[column] ?? 0), 0);
    if (name === NEW || height < SEEN) return [];
    return [{ name, score: (share * Math.sqrt(share)) / height }];
  });
  const [first, second] = scores.toSorted((one, other) => other.score - one.score);
  if (old < HARDLY_OLD || first === undefined) return [NEW];
  const isSecond = second !== undefined && second.score >= SECOND_COUNTS * first.score;
  return isSecond ? [first.name, second.name] : [first.name];
}

/** The millilitres between which a place's fluid comes out of a screw; null where it never shows. */
export function passageOf(strip: Strip, name: string): Band | null {
  const column = strip.origins.indexOf(name);
  const shares = strip.shares.map((slice) => slice[column] ?? 0);
  const height = Math.max(0, ...shares);
  if (height < SEEN) return null;
  const isSeen = (share: number): boolean => share >= SEEN * height;
  const ends = [shares.findIndex(isSeen), shares.indexOf(height) + 0.5, shares.findLastIndex(isSeen) + 1];
  const [p05 = 0, p50 = 0, p95 = 0] = ends.map((end) => end * strip.slice_ml);
  return { p05, p50, p95 };
}

function disagreement(look: Look, share: Band): Mark["disagrees"] {
  if (look === "dark" && share.p05 > SURELY_NEW) return "dark though new";
  if (look === "clear" && share.p95 < SURELY_OLD) return "clear though old";
  return null;
}

/** How new the fluid at a screw is after so much came out. */
export function newShare(washout: Washout, out: Band): Band {
  const at = (ml: number, end: keyof Band): number => between(washout, ml, end);
  return { p05: at(out.p05, "p05"), p50: at(out.p50, "p50"), p95: at(out.p95, "p95") };
}

/** Straight lines between the points of a curve; its ends go on flat. */
function between({ volume_ml: volumes, new_share: shares }: Washout, ml: number, end: keyof Band): number {
  const place = volumes.findIndex((volume) => volume > ml);
  const at = (index: number): number => shares.at(index)?.[end] ?? 0;
  if (place <= 0) return at(place);
  const [x0, x1] = [volumes[place - 1] ?? 0, volumes[place] ?? 0];
  const [y0, y1] = [at(place - 1), at(place)];
  return y0 + ((y1 - y0) * (ml - x0)) / (x1 - x0);
}
