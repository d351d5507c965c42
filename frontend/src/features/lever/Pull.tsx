// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LeverDraft } from "../../drafts";
import { shown, unit } from "../../display";
import { onScale } from "../../lib/units";
import { nameOf, readRow } from "./reading";
import { along, ticks } from "./scale";
import { isHold } from "./sets";

const [WIDTH, LEFT, RIGHT, TOP, BOTTOM] = [320, 44, 308, 24, 196];

/** A mark for each set, so that they are told apart without colour. */
const MARKS = [
  "M-4 0A4 4 0 1 0 4 0A4 4 0 1 0 -4 0Z",
  "M-4 -4H4V4H-4Z",
  "M0 -5L5 4H-5Z",
  "M0 -5L5 0L0 5L-5 0Z",
] as const;

interface Run {
  readonly name: string;
  readonly points: readonly (readonly [travel: number, force: number])[];
  readonly isHere: boolean;
}

/** Force over travel as it grows, the set being read drawn strong. */
export function Pull({ draft, set }: { readonly draft: LeverDraft; readonly set: number }): ComponentChild {
  const runs = runsOf(draft, set);
  const count = runs.reduce((sum, run) => sum + run.points.length, 0);
  if (count === 0) return null;
  const points = runs.flatMap((run) => run.points);
  const across = ticks(Math.max(...points.map(([travel]) => travel)));
  const up = ticks(Math.max(...points.map(([, force]) => force)), 3);
  const [endX, endY] = [across.at(-1) ?? 1, up.at(-1) ?? 1];
  const x = (travel: number): number => along(travel, endX, LEFT, RIGHT);
  const y = (force: number): number => along(force, endY, BOTTOM, TOP);
  return (
    <figure class="lever-graph">
      <svg viewBox={`0 0 ${WIDTH} ${BOTTOM + 40}`} role="img" aria-label={`Force over travel, ${count} readings so far; the rows above hold them.`}>
        <text class="lever-axis" x={LEFT} y={TOP - 10}>{`force, ${draft.scale}`}</text>
        <path class="lever-frame" d={`M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}`} />
        {up.map((value) => (
          <text class="lever-axis lever-axis-up" key={value} x={LEFT - 6} y={y(value) + 4}>
            {value}
          </text>
        ))}
        {across.map((value) => (
          <text class="lever-axis lever-axis-across" key={value} x={x(value)} y={BOTTOM + 18}>
            {value}
          </text>
        ))}
        <text class="lever-axis lever-axis-up" x={RIGHT} y={BOTTOM + 36}>{`travel, ${unit("mm")}`}</text>
        {runs.map((run, place) => (
          <g key={run.name} class={run.isHere ? "lever-run lever-run-here" : "lever-run"}>
            <path d={run.points.map(([travel, force], at) => `${at === 0 ? "M" : "L"}${x(travel)} ${y(force)}`).join("")} />
            {run.points.map(([travel, force], at) => (
              <path key={at} class="lever-point" transform={`translate(${x(travel)} ${y(force)})`} d={markAt(place)} />
            ))}
          </g>
        ))}
      </svg>
      <figcaption class="lever-keys">
        {runs.map((run, place) => (
          <span key={run.name} class={run.isHere ? "lever-run lever-run-here" : "lever-run"}>
            <svg viewBox="-7 -7 14 14" aria-hidden="true">
              <path class="lever-point" d={markAt(place)} />
            </svg>
            {run.name}
          </span>
        ))}
      </figcaption>
    </figure>
  );
}

function markAt(place: number): string {
  return MARKS[place % MARKS.length] ?? MARKS[0];
}

function runsOf(draft: LeverDraft, here: number): readonly Run[] {
  return draft.sets.flatMap((set, place) => {
    if (isHold(set.kind)) return [];
    const points = set.rows.flatMap((row) => {
      const read = readRow(set, row, draft.scale, draft.measures);
      return read === null ? [] : [[shown(read[1], "mm"), onScale(read[0], draft.scale)] as const];
    });
    return points.length === 0 ? [] : [{ name: nameOf(draft.sets, place), points, isHere: place === here }];
  });
}
