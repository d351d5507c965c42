// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Bands in the chosen measures, as a table holds them: the unit stands in its head. */
import { shown } from "../../display";
import { bandMiddle, bandRange, type Band } from "../../lib/figures";

export function inShown(band: Band, metric: string): Band {
  return { p05: shown(band.p05, metric), p50: shown(band.p50, metric), p95: shown(band.p95, metric) };
}

/** "0.28 (0.21–0.35)" */
export function figures(band: Band, metric: string): string {
  const own = inShown(band, metric);
  return `${bandMiddle(own)} (${bandRange(own)})`;
}
