// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Texts from the server in the chosen words and measures. */
import { measures, say, scale, shown, unit } from "../../display";
import { onScale } from "../../lib/units";

const RUN = /(?:[\d.]+[ ()–]*(?:to )?)+(?:ml|mm|N)\b/g;
const FIGURE = /\d+(?:\.\d+)?/g;
const DIGITS = 3;

function converted(run: string): string {
  const metric = run.slice(run.search(/(?:ml|mm|N)$/));
  if (metric === "N") {
    return run.replace(FIGURE, (one) => written(onScale(Number(one), scale.value))).replace(/N$/, scale.value);
  }
  return run.replace(FIGURE, (one) => written(shown(Number(one), metric))).replace(/m[lm]$/, unit(metric));
}

function written(value: number): string {
  return String(Number(value.toPrecision(DIGITS)));
}

/** A sentence with its millilitres, millimetres and newtons as this person reads them. */
export function told(text: string, keep: readonly string[] = []): string {
  return say(inMeasures(text), keep);
}

function inMeasures(text: string): string {
  const isAsWritten = measures.value === "metric" && scale.value === "N";
  return isAsWritten
    ? text
    : text.replace(RUN, (run) => {
        const isForce = run.endsWith("N");
        if (isForce ? scale.value === "N" : measures.value === "metric") return run;
        return converted(run);
      });
}
