// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What a stroke or a second brings: the plan's prior, corrected by the cup. */
import type { Band, JobSheet } from "./sheet";

/** The 95 % point of the normal distribution. */
export const Z = 1.6448536269514722;
/** A corrected mean below this part of the prior one is not believed. */
const LEAST_OF_PRIOR = 0.2;

export interface UnitMl {
  readonly mean: number;
  readonly sd: number;
}

/** What lies in the cup of one screw, and after how many counts it was read. */
export interface Cup {
  readonly ml: number;
  readonly sample_ml: number;
  readonly at: number;
}

/** How far a cup of this much may be misread. */
export function readError(sheet: JobSheet, ml: number): number {
  return sheet.cup.read_error_ml + sheet.cup.read_error_share * ml;
}

export function priorUnit({ unit }: JobSheet): UnitMl {
  return { mean: unit.ml.p50, sd: (unit.ml.p95 - unit.ml.p05) / (2 * Z) };
}

/** Combine the prior and every cup by their precisions. */
export function correctedUnit(sheet: JobSheet, cups: readonly Cup[]): UnitMl {
  const prior = priorUnit(sheet);
  const read = cups.filter((cup) => cup.at > 0);
  if (read.length === 0 || prior.sd <= 0) return prior;
  let weight = 1 / (prior.sd * prior.sd);
  let sum = prior.mean * weight;
  for (const cup of read) {
    const sd = readError(sheet, cup.ml) / cup.at;
    const precision = 1 / (sd * sd);
    weight += precision;
    sum += ((cup.ml + cup.sample_ml) / cup.at) * precision;
  }
  return { mean: Math.max(sum / weight, LEAST_OF_PRIOR * prior.mean), sd: Math.sqrt(1 / weight) };
}

/** The bad end for the pot: the cup may only raise it, as a leaking tube joint reads low. */
export function guardUnit(sheet: JobSheet, unit: UnitMl): number {
  return Math.max(sheet.unit.ml.p95, unit.mean + Z * unit.sd);
}

/** A band about a middle, never below nothing. */
export function bandAbout(middle: number, sd: number): Band {
  return {
    p05: Math.max(0, middle - Z * sd),
    p50: Math.max(0, middle),
    p95: Math.max(0, middle + Z * sd),
  };
}
