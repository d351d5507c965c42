// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The reservoir: what is in it above MIN, counted down at the bad end. */
import type { Posture } from "./event";
import type { Band, JobSheet } from "./sheet";
import type { Call, Pot } from "./state";
import { Z, type UnitMl } from "./unit";

/** What one set takes before the lever is let go of, or the pump watched again. */
export const SET = { stroke: 5, second: 20 } as const;
const SOON_SETS = 2;

/** The reservoir as last seen or filled, and how many counts went out since. */
export interface PotBase {
  readonly above_min_ml: Band;
  readonly since: number;
}

export function filledTo(sheet: JobSheet, to: "max" | "fill line" | number, posture: Posture): Band {
  const { usable_ml: usable, fill_to_ml: line, read_error_ml: error, tilt_ml: tilt } = sheet.reservoir;
  const lost = posture === "side stand" ? tilt : 0;
  if (typeof to === "number") {
    return { p05: Math.max(0, to - error - lost), p50: to, p95: to + error };
  }
  const full = to === "fill line" && line !== null ? { p05: line, p50: line, p95: line } : usable;
  return { p05: Math.max(0, full.p05 - error - lost), p50: full.p50, p95: full.p95 };
}

export function potNow(
  sheet: JobSheet,
  base: PotBase | null,
  below: "min" | "port" | null,
  unit: UnitMl,
  guard: number,
): Pot {
  if (base === null) {
    const above_min_ml = { p05: 0, p50: 0, p95: 0 };
    return { above_min_ml, left_ml: 0, counts_left: 0, call: callOf(below) ?? "not filled" };
  }
  const k = base.since;
  const above_min_ml = {
    p05: base.above_min_ml.p05 - k * guard,
    p50: base.above_min_ml.p50 - k * unit.mean,
    p95: base.above_min_ml.p95 - k * Math.max(0, unit.mean - Z * unit.sd),
  };
  const left_ml = Math.max(0, above_min_ml.p05);
  const counts_left = Math.floor(left_ml / guard);
  return { above_min_ml, left_ml, counts_left, call: callOf(below) ?? callFor(sheet, counts_left) };
}

function callOf(below: "min" | "port" | null): Call | null {
  if (below === null) return null;
  return below === "port" ? "port" : "below min";
}

function callFor(sheet: JobSheet, left: number): Call {
  const set = SET[sheet.unit.name];
  if (left < 1 || left < set) return "now";
  return left < SOON_SETS * set ? "soon" : "fine";
}
