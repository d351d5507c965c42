// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LevelReport } from "../../api/looks";
import { dayShown, unit } from "../../display";
import { coursesOf } from "./course";

const WIDE = 320;
const HIGH = 180;
const LEFT = 40;
const FOOT = 24;

/** Level over time: what was seen as points, what the pads explain as a band, MIN as a line. */
export function Plot({ report }: { report: LevelReport }): ComponentChild {
  const points = coursesOf(report);
  const [first, last] = [points[0], points.at(-1)];
  if (points.length < 2 || first === undefined || last === undefined) return null;
  const heights = points.flatMap((one) => [one.seen, one.low, one.high]);
  const top = Math.max(...heights, 1) * 1.1;
  const bottom = Math.min(...heights, 0) * 1.1;
  const x = (day: number): number => LEFT + ((day - first.day) / (last.day - first.day)) * (WIDE - LEFT - 10);
  const y = (ml: number): number => 8 + ((top - ml) / (top - bottom)) * (HIGH - FOOT - 8);
  const path = (of: readonly (readonly [number, number])[]): string =>
    of.map(([day, ml]) => `${x(day).toFixed(1)} ${y(ml).toFixed(1)}`).join("L");
  const upper = points.map((one) => [one.day, one.high] as const);
  const lower = points.map((one) => [one.day, one.low] as const).toReversed();
  return (
    <figure class="level-plot">
      <svg viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
        <path d={`M${path([...upper, ...lower])}Z`} class="level-band" />
        <path d={`M${LEFT} ${y(0)}H${WIDE - 10}`} class="level-min" />
        <text x="2" y={y(0) + 5}>
          MIN
        </text>
        <path d={`M${path(points.map((one) => [one.day, one.seen] as const))}`} class="level-line" />
        {points.map((one) => (
          <circle key={one.day} cx={x(one.day)} cy={y(one.seen)} r="5" class="level-dot" />
        ))}
        <text x={LEFT} y={HIGH - 4}>
          {first.on}
        </text>
        <text x={WIDE - 10} y={HIGH - 4} text-anchor="end">
          {last.on}
        </text>
      </svg>
      <figcaption class="soft">
        {`Level above MIN in ${unit("ml")}, from ${dayShown(first.on)} to ${dayShown(last.on)}. Dots: what was seen. Band: where wear alone, with what was poured in, would have left it.`}
      </figcaption>
    </figure>
  );
}
