// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Sentences of the result, their millilitres and days as they are shown. */
import { dayShown, say, shown, unit } from "../../display";
import { plain } from "../../lib/figures";

const AMOUNT = /(-?\d+(?:\.\d+)?) ml(?: \((-?\d+(?:\.\d+)?) to (-?\d+(?:\.\d+)?)\))?/g;

const DAY = /\b\d{4}-\d{2}-\d{2}\b/g;

export const OF_A_CLUTCH =
  "This is a clutch: as its plates wear, its level stays or rises. A level that falls has lost fluid.";

export function told(text: string, keep: readonly string[] = []): string {
  const inShown = (ml: string): string => plain(Number(shown(Number(ml), "ml").toPrecision(2)));
  const turned = text.replace(AMOUNT, (_, middle: string, low?: string, high?: string) => {
    const band = low === undefined || high === undefined ? "" : ` (${inShown(low)} to ${inShown(high)})`;
    return `${inShown(middle)} ${unit("ml")}${band}`;
  });
  return say(turned.replace(DAY, dayShown), keep);
}
