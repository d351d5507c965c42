// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/**
 * What a count brings: the plan's prior, corrected by what lies in the catch cup.
 *
 * The arithmetic is plain and in a fixed order, so that Python gets the same numbers.
 */
import type { Band, JobSheet, SheetPoint } from "./sheet";

/** The 95 % point of the normal distribution. */
export const Z = 1.6448536269514722;
/**
 * A corrected mean below this part of the prior one is not believed; under suction a screw is
 * opened only a crack, where a tenth of the plan's flow is usual (judgement).
 */
const LEAST_OF_PRIOR = { stroke: 0.2, second: 0.02 } as const;
/** A prior of no width would let nothing correct it (judgement). */
const LEAST_SPREAD = 0.001;
/**
 * Standard deviations to each end of the counts in all: more than the 1.64 of a band, for an
 * uneven hand is in no term (regression: what holds nine in ten of 720 simulated screws).
 */
const COUNT_BAND = 1.85;
/** Ends so low that a logarithm would run away with them (judgement). */
const LEAST_LOW = 0.05;
const LEAST_UNIT = 0.2;

/** Millilitres a stroke or a second brings: mean and standard deviation. */
export interface UnitMl {
  readonly mean: number;
  readonly sd: number;
}

/** What lay in the cup of one screw, with the sample caught apart, after so many counts. */
export interface Cup {
  readonly ml: number;
  readonly sample_ml: number;
  readonly at: number;
}

/** What came out by a reading of the cup; part of it may have run beside. */
function outOf(cup: Cup, error: JobSheet["cup"]): UnitMl {
  const reading = error.read_error_ml + error.read_error_share * cup.ml;
  const kept = 1 - error.beside_share / 2;
  const into = cup.ml / kept;
  const beside = (into * error.beside_share) / Math.sqrt(12);
  return { mean: into + cup.sample_ml, sd: Math.sqrt(reading * reading + beside * beside) };
}

/** What a count brings by the plan alone. */
export function priorUnit({ unit: { ml } }: JobSheet): UnitMl {
  return { mean: ml.p50, sd: Math.max((ml.p95 - ml.p05) / (2 * Z), LEAST_SPREAD * ml.p50) };
}

/** The prior with cups read after some counts, each weighted by its precision. */
export function correctedUnit(sheet: JobSheet, cups: Iterable<Cup>): UnitMl {
  const prior = priorUnit(sheet);
  const least = LEAST_OF_PRIOR[sheet.unit.name] * prior.mean;
  let weight = 1 / (prior.sd * prior.sd);
  let total = prior.mean * weight;
  for (const cup of cups) {
    const out = outOf(cup, sheet.cup);
    const sd = out.sd / cup.at;
    const precision = 1 / (sd * sd);
    weight += precision;
    total += (out.mean / cup.at) * precision;
  }
  return { mean: Math.max(total / weight, least), sd: Math.sqrt(1 / weight) };
}

/** What came out of a screw by a count: up to the last cup a part of it, then what was counted since. */
export function outMl(sheet: JobSheet, count: number, cup: Cup | null, unit: UnitMl): Band {
  if (cup === null) return bandAbout(count * unit.mean, count * unit.sd);
  const out = outOf(cup, sheet.cup);
  const since = count - cup.at;
  if (since < 0) {
    const part = count / cup.at;
    return bandAbout(out.mean * part, out.sd * part);
  }
  const spread = since * unit.sd;
  return bandAbout(out.mean + since * unit.mean, Math.sqrt(out.sd * out.sd + spread * spread));
}

/** Counts in all until a screw is as new as wanted. */
export function totalCount(sheet: JobSheet, point: SheetPoint, cup: Cup | null, unit: UnitMl): Band {
  const [out, at] = cup === null ? [0, 0] : [outOf(cup, sheet.cup).mean, cup.at];
  const { p05, p50, p95 } = point.volume_ml;
  if (p50 <= 0) return { p05: at, p50: at, p95: at };
  const middle = at + Math.max(0, p50 - out) / unit.mean;
  // What a count brings stands in the denominator, so the spread is one of logarithms.
  const ofUnit = (Z * unit.sd) / unit.mean;
  const low = Math.max(p05, LEAST_LOW * p50);
  const down = together(Math.log(p50 / low), Math.log(1 + ofUnit));
  const up = together(Math.log(p95 / p50), -Math.log(Math.max(LEAST_UNIT, 1 - ofUnit)));
  return {
    p05: Math.max(at, Math.floor(middle * Math.exp(-COUNT_BAND * down))),
    p50: Math.max(at, Math.ceil(middle)),
    p95: Math.max(at, Math.ceil(middle * Math.exp(COUNT_BAND * up))),
  };
}

/** The standard deviation of a logarithm from the half widths of two bands. */
function together(ofVolume: number, ofUnit: number): number {
  const [volume, unit] = [ofVolume / Z, ofUnit / Z];
  return Math.sqrt(volume * volume + unit * unit);
}

/** A band about a middle, never below nothing. */
function bandAbout(middle: number, sd: number): Band {
  const half = Z * sd;
  return { p05: Math.max(0, middle - half), p50: Math.max(0, middle), p95: Math.max(0, middle + half) };
}
