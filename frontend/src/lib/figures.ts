// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/**
 * How a figure with its band is written: never a digit that the band does not carry.
 *
 * A band is rounded to the largest power of ten of which its half width holds at least two;
 * a value without a band keeps two significant digits. The same rule is kept in Python, and
 * both are held to the same examples.
 */

export interface Band {
  readonly p05: number;
  readonly p50: number;
  readonly p95: number;
}

const STEPS_IN_HALF_WIDTH = 2;
const DIGITS_WITHOUT_BAND = 2;
const DASH = "–";

function decimalsOf(low: number, high: number): number {
  const halfWidth = (high - low) / 2;
  const size = Math.max(Math.abs(low), Math.abs(high));
  if (halfWidth > 1e-9 * size) {
    return -Math.floor(Math.log10(halfWidth / STEPS_IN_HALF_WIDTH) + 1e-9);
  }
  return size > 0 ? DIGITS_WITHOUT_BAND - 1 - Math.floor(Math.log10(size)) : 0;
}

/** Round with ties to the even digit. */
function write(value: number, decimals: number): string {
  if (decimals < 0) {
    const step = 10 ** -decimals;
    return String(nearestEven(value, step) + 0);
  }
  const size = Math.abs(value);
  const cut = size.toFixed(Math.min(decimals + 30, 100));
  const tail = cut.slice(cut.indexOf(".") + 1 + decimals);
  const kept = cut.slice(0, cut.length - tail.length).replace(/\.$/, "");
  const isTie = /^50*$/.test(tail);
  const digits = isTie && Number(kept.at(-1)) % 2 === 0 ? kept : size.toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? `-${digits}` : digits;
}

function nearestEven(value: number, step: number): number {
  const below = Math.floor(value / step);
  const rest = value - below * step;
  const isUp = rest === step / 2 ? below % 2 !== 0 : rest > step / 2;
  return (isUp ? below + 1 : below) * step;
}

/** A range, or one figure where both ends read the same: 64–83. */
export function span(low: number, high: number): string {
  const decimals = decimalsOf(low, high);
  const [start, end] = [write(low, decimals), write(high, decimals)];
  return start === end ? start : start + DASH + end;
}

/** A band as its range: 110–160. */
export function bandRange(band: Band): string {
  return span(band.p05, band.p95);
}

/** The middle of a band with the digits its width carries. */
export function bandMiddle(band: Band): string {
  return write(band.p50, decimalsOf(band.p05, band.p95));
}

/** What a guard may count on: the low end, rounded down to two digits. */
export function atLeast(band: Band): string {
  const decimals =
    band.p05 > 0 ? DIGITS_WITHOUT_BAND - 1 - Math.floor(Math.log10(band.p05)) : 0;
  const factor = 10 ** decimals;
  return write(Math.floor(band.p05 * factor) / factor, decimals);
}

/** A band of shares in per cent. */
export function inPerCent(band: Band): Band {
  return { p05: 100 * band.p05, p50: 100 * band.p50, p95: 100 * band.p95 };
}

/** A band of shares as middle and range: 9 % (5–17). */
export function perCent(band: Band): string {
  const hundredths = inPerCent(band);
  const [middle, ends] = [bandMiddle(hundredths), bandRange(hundredths)];
  return middle === ends ? `${middle} %` : `${middle} % (${ends})`;
}

/** A band of whole numbers: 27–36. */
export function count(band: Band): string {
  return band.p05 === band.p95 ? String(band.p05) : `${band.p05}${DASH}${band.p95}`;
}

/** How often something is done; a dash where it is never done. */
export function times(band: Band): string {
  return band.p95 > 0 ? count(band) : "-";
}

/** A figure before its noun, with the plural where it needs one. */
export function counted(figure: string, noun: string): string {
  return figure === "1" ? `1 ${noun}` : `${figure} ${noun}s`;
}

/** A value somebody gave, as they would have written it. */
export function plain(value: number): string {
  return String(Number(value.toPrecision(4)));
}
