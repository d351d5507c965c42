// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Texts from the server in the chosen words and measures. */
import { signal } from "@preact/signals";

import { measures, say, scale, shown, unit } from "../../display";
import { onScale } from "../../lib/units";

/** What works the circuit that is tested; texts say "lever", and "pedal" where it is one. */
export const workedBy = signal("lever");

/** Figures before a unit, and the range of a rate, which stands behind it. */
const RUN = /[\d.]+(?:[ ()–]+(?:to )?[\d.]+)*\)? ?(ml|mm|N)\b(?: a minute \([\d.]+ to [\d.]+\))?/g;
const FIGURE = /\d+(?:\.\d+)?/g;
const DIGITS = 3;

function converted(run: string, metric: string): string {
  const isForce = metric === "N";
  if (isForce ? scale.value === "N" : measures.value === "metric") return run;
  const convert = (value: number): number => (isForce ? onScale(value, scale.value) : shown(value, metric));
  return run
    .replace(FIGURE, (one) => String(Number(convert(Number(one)).toPrecision(DIGITS))))
    .replace(metric, isForce ? scale.value : unit(metric));
}

/** A sentence with its millilitres, millimetres and newtons as this person reads them. */
export function told(text: string, keep: readonly string[] = []): string {
  const own = workedBy.value === "pedal" ? text.replaceAll(/\blever\b(?! test)/g, "pedal").replace("meets the grip", "meets its stop") : text;
  return say(own.replace(RUN, converted), keep);
}
