// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LeverResult } from "../../api/levers";
import { unit } from "../../display";
import { Table } from "../../ui/Table";
import { figures, inShown } from "./figures";
import { along, ticks } from "./scale";

const [WIDTH, LEFT, RIGHT, BOTTOM] = [320, 64, 308, 72];

/** The air before and after the work, side by side. */
export function BeforeAfter({ result }: { readonly result: LeverResult }): ComponentChild {
  const { air_ml: before, air_after_ml: after } = result;
  if (after === null) return null;
  const rows = [
    { name: "before", band: before },
    { name: "after", band: after },
  ];
  const bands = rows.map((row) => inShown(row.band, "ml"));
  const marks = ticks(Math.max(...bands.map((band) => band.p95)));
  const end = marks.at(-1) ?? 1;
  const x = (ml: number): number => along(Math.max(ml, 0), end, LEFT, RIGHT);
  return (
    <section class="lever-part" aria-labelledby="lever-both">
      <h2 id="lever-both">Air before and after</h2>
      <svg class="lever-both" viewBox={`0 0 ${WIDTH} ${BOTTOM + 24}`} aria-hidden="true">
        <path class="lever-frame" d={`M${LEFT} 4V${BOTTOM}H${RIGHT}`} />
        {marks.map((value) => (
          <text class="lever-axis lever-axis-across" key={value} x={x(value)} y={BOTTOM + 18}>
            {value}
          </text>
        ))}
        {bands.map((band, place) => (
          <g class="lever-drift" key={rows[place]?.name} transform={`translate(0 ${20 + 30 * place})`}>
            <text class="lever-axis lever-axis-up" x={LEFT - 8} y="5">
              {rows[place]?.name}
            </text>
            <path d={`M${x(band.p05)} 0H${x(band.p95)}M${x(band.p05)} -5v10M${x(band.p95)} -5v10`} />
            <circle cx={x(band.p50)} cy="0" r="5" />
          </g>
        ))}
      </svg>
      <Table
        caption="Air before and after the work"
        hideCaption
        columns={[{ head: "Air" }, { head: unit("ml"), isFigure: true }]}
        rows={rows.map((row) => [row.name, figures(row.band, "ml")])}
      />
    </section>
  );
}
