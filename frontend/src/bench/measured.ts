// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What a lever test writes into the log of a job, in millilitres. */
import type { Measurement } from "./facts";

export const AIR_LEFT = "air left";
/** The high end of its band. */
export const AIR_AT_MOST = "air left, at most";

export interface AirFound {
  readonly ml: number;
  readonly atMostMl: number | null;
}

/** What the last lever test of a job found; null where there was none. */
export function airFound(measured: readonly Measurement[]): AirFound | null {
  const last = (name: string): number | null =>
    measured.findLast(({ what, unit }) => what === name && unit === "ml")?.value ?? null;
  const ml = last(AIR_LEFT);
  return ml === null ? null : { ml, atMostMl: last(AIR_AT_MOST) };
}
