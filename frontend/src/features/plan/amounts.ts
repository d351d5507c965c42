// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Amounts of fluid in the measures that are shown. */
import { measures, shown, unit } from "../../display";
import { atLeast, inPerCent, perCent, plain, type Band } from "../../lib/figures";

/** What a guard may count on: the low end of the band, rounded down. */
export function guardAmount(ml: Band): string {
  const band = { p05: shown(ml.p05, "ml"), p50: shown(ml.p50, "ml"), p95: shown(ml.p95, "ml") };
  return `${atLeast(band)} ${unit("ml")}`;
}

/** An amount to tenths of a millilitre, or what that is in other measures. */
export function smallAmount(ml: number): string {
  const value = shown(Math.round(Math.abs(ml) * 10) / 10, "ml");
  return `${plain(Number(value.toPrecision(2)))} ${unit("ml")}`;
}

/** A bottle as it is sold, with what that is in other measures. */
export function bottle(ml: number): string {
  const asSold = `${ml} ml`;
  if (measures.value === "metric") return asSold;
  return `${asSold} (${plain(Number(shown(ml, "ml").toPrecision(2)))} ${unit("ml")})`;
}

/** An amount to the whole millilitre, or to two digits of what that is in other measures. */
export function wholeAmount(ml: number): string {
  const value = shown(Math.round(ml), "ml");
  const written = measures.value === "metric" ? value : Number(value.toPrecision(2));
  return `${plain(written)} ${unit("ml")}`;
}

/** Shares in whole per cent, for a row of many: "2–5". */
export function wholePerCent(share: Band): { readonly middle: string; readonly range: string } {
  const { p05, p50, p95 } = inPerCent(share);
  const [low, middle, high] = [p05, p50, p95].map((value) => String(Math.round(value)));
  return { middle: middle ?? "", range: low === high ? `${low}` : `${low}–${high}` };
}

/** What one part holds: no finer than a whole per cent where its band is narrower than that. */
export function partPerCent(share: Band): string {
  const { middle, range } = wholePerCent(share);
  return middle === range ? `${middle} %` : perCent(share);
}
