// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What has come out of a screw, how new it is, and how many counts it takes in all. */
import type { Band, JobSheet, SheetPoint, Washout } from "./sheet";
import { bandAbout, readError, Z, type Cup, type UnitMl } from "./unit";

/** What a screw has given so far. */
export interface Given {
  readonly count: number;
  readonly cup: Cup | null;
}

export function outMl(sheet: JobSheet, given: Given, unit: UnitMl): Band {
  const { cup, count } = given;
  if (cup === null) return bandAbout(count * unit.mean, count * unit.sd);
  const since = count - cup.at;
  const r = readError(sheet, cup.ml);
  const spread = since * unit.sd;
  return bandAbout(cup.ml + cup.sample_ml + since * unit.mean, Math.sqrt(r * r + spread * spread));
}

/** Counts in all until this screw is as new as wanted. */
export function totalCount(sheet: JobSheet, point: SheetPoint, given: Given, unit: UnitMl): Band {
  const caught = given.cup === null ? 0 : given.cup.ml + given.cup.sample_ml;
  const at = given.cup === null ? 0 : given.cup.at;
  const r = given.cup === null ? 0 : readError(sheet, given.cup.ml);
  const { p05, p50, p95 } = point.volume_ml;
  const left = Math.max(0, p50 - caught) / unit.mean;
  const mid = at + left;
  const ofUnit = left * (unit.sd / unit.mean);
  const half = (width: number): number => {
    const ofVolume = width / Z;
    const own = Math.sqrt(ofVolume * ofVolume + r * r) / unit.mean;
    return Math.sqrt(own * own + ofUnit * ofUnit);
  };
  return {
    p05: Math.max(at, Math.floor(mid - Z * half(p50 - p05))),
    p50: Math.max(at, Math.ceil(mid)),
    p95: Math.max(at, Math.ceil(mid + Z * half(p95 - p50))),
  };
}

/** How new the fluid at the screw is after what came out. */
export function newShare(washout: Washout, out: Band): Band {
  const at = (ml: number, end: keyof Band): number => between(washout, ml, end);
  return { p05: at(out.p05, "p05"), p50: at(out.p50, "p50"), p95: at(out.p95, "p95") };
}

/** Straight lines between the points of the table; its ends go on flat. */
function between({ volume_ml: volumes, new_share: shares }: Washout, ml: number, end: keyof Band): number {
  const [first, last] = [shares[0], shares.at(-1)];
  if (first === undefined || last === undefined) return 0;
  const place = volumes.findIndex((volume) => volume > ml);
  if (place === 0) return first[end];
  if (place < 0) return last[end];
  const [x0, x1] = [volumes[place - 1] ?? 0, volumes[place] ?? 0];
  const [y0, y1] = [shares[place - 1]?.[end] ?? 0, shares[place]?.[end] ?? 0];
  return y0 + ((y1 - y0) * (ml - x0)) / (x1 - x0);
}
