// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Round figures for an axis from nought, and where a value falls on it. */
const STEPS = [1, 2, 5, 10];

export function ticks(end: number, most = 4): readonly number[] {
  const rough = Math.max(end, 1e-6) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = (STEPS.find((one) => one * power >= rough * (1 - 1e-9)) ?? 10) * power;
  const count = Math.max(1, Math.ceil(end / step - 1e-9));
  return Array.from({ length: count + 1 }, (_, place) => Number((place * step).toPrecision(12)));
}

export function along(value: number, end: number, from: number, to: number): number {
  return from + (value / end) * (to - from);
}
