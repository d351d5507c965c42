// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Where the fluid sat that somebody marked in the tube. */
import type { Look } from "./event";
import type { Band, Strip } from "./sheet";
import type { Mark, Share } from "./state";

export const NEW = "new";
const SECOND_COUNTS = 0.6;
const HARDLY_OLD = 0.02;
const SURELY_NEW = 0.9;
const SURELY_OLD = 0.5;

export function markAt(event: string, look: Look, out: Band, share: Band, strip: Strip): Mark {
  const { origins, old } = originsBetween(strip, out);
  return {
    event,
    look,
    at_ml: out,
    origins,
    named: named(origins, old),
    disagrees: disagreement(look, share),
  };
}

/** Old origins of the slices that may be at the screw, scaled to one; and how much is old in all. */
function originsBetween(strip: Strip, out: Band): { origins: readonly Share[]; old: number } {
  const last = strip.shares.length - 1;
  const first = Math.min(Math.floor(out.p05 / strip.slice_ml), last);
  const end = Math.max(first, Math.min(Math.ceil(out.p95 / strip.slice_ml) - 1, last));
  const slices = strip.shares.slice(first, end + 1);
  const means = strip.origins.map((name, column) => {
    let sum = 0;
    for (const slice of slices) sum += slice[column] ?? 0;
    return { name, share: sum / slices.length };
  });
  const olds = means.filter((one) => one.name !== NEW);
  let old = 0;
  for (const one of olds) old += one.share;
  const origins = olds.map((one) => ({ name: one.name, share: old > 0 ? one.share / old : 0 }));
  return { origins, old };
}

function named(origins: readonly Share[], old: number): readonly string[] {
  if (old < HARDLY_OLD) return [NEW];
  // Sorting keeps the order of equals, so the first listed wins a tie.
  const [first, second] = origins.toSorted((one, other) => other.share - one.share);
  if (first === undefined) return [NEW];
  const isSecond = second !== undefined && second.share >= SECOND_COUNTS * first.share;
  return isSecond ? [first.name, second.name] : [first.name];
}

function disagreement(look: Look, share: Band): Mark["disagrees"] {
  if (look === "dark" && share.p05 > SURELY_NEW) return "dark though new";
  if (look === "clear" && share.p95 < SURELY_OLD) return "clear though old";
  return null;
}
