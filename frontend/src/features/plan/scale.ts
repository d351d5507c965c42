// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Round figures for an axis from nought: at most `most` steps of 1, 2 or 5 times a power of ten. */
export function ticks(end: number, most = 5): readonly number[] {
  if (!(end > 0)) return [0];
  const rough = end / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((one) => one >= rough) ?? rough;
  const count = Math.floor(end / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, place) => Number((place * step).toPrecision(12)));
}
