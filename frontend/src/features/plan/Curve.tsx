// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { PlanPoint } from "../../api/plan";
import { bandAmount, metricOf, shown, unit } from "../../display";
import { plain } from "../../lib/figures";
import { Table } from "../../ui/Table";
import { AsTable } from "./AsTable";
import { wholePerCent } from "./amounts";
import { curvePaths, curveRows, xOf, yOfShare } from "./curve";
import type { Box } from "../../drawing/layers";
import { ticks } from "./scale";

const WIDTH = 288;
const BOX: Box = { x: 48, y: 24, width: 228, height: 176 };
const BOTTOM = BOX.y + BOX.height;
const SHARES = [0, 0.5, 1];

interface Props {
  readonly point: PlanPoint;
  readonly target: number;
}

/** How much of what comes out is new, with its band, and where the step ends. */
export function Curve({ point, target }: Props): ComponentChild {
  const endMl = point.washout.volume_ml.at(-1) ?? 0;
  const paths = curvePaths(point.washout, BOX, endMl);
  const goal = yOfShare(target, BOX);
  const [from, to] = [xOf(point.volume_ml.p05, BOX, endMl), xOf(point.volume_ml.p95, BOX, endMl)];
  const done = `${plain(100 * target)} % new after ${bandAmount(point.volume_ml, "ml")}`;
  return (
    <figure class="graph">
      <figcaption class="graph-title">When it runs new</figcaption>
      <svg class="graph-picture" viewBox={`0 0 ${WIDTH} ${BOTTOM + 44}`} role="img" aria-label={`${done}. The table below tells it step by step.`}>
        <text class="graph-words" x={BOX.x} y={BOX.y - 8}>
          new fluid at the screw
        </text>
        <path class="curve-band" d={paths.band} />
        <path class="curve-middle" d={paths.middle} />
        <path class="graph-frame" d={`M${BOX.x} ${BOX.y}V${BOTTOM}H${BOX.x + BOX.width}`} />
        {SHARES.map((share) => (
          <text class="graph-figure" key={share} x={BOX.x - 8} y={yOfShare(share, BOX) + 4}>
            {`${100 * share} %`}
          </text>
        ))}
        <path class="curve-target" d={`M${BOX.x} ${goal}H${BOX.x + BOX.width}`} />
        <text class="graph-words" x={BOX.x + 6} y={goal + 16}>
          {`target ${plain(100 * target)} %`}
        </text>
        <path class="curve-end" d={`M${from} ${BOTTOM}H${to}M${from} ${BOTTOM - 6}v12M${to} ${BOTTOM - 6}v12`} />
        <Millilitres endMl={endMl} />
      </svg>
      <p>
        <strong>{done}.</strong> The area holds nine runs of ten.
      </p>
      <AsTable table={() => <CurveTable point={point} />} />
    </figure>
  );
}

function Millilitres({ endMl }: { endMl: number }): ComponentChild {
  const values = ticks(shown(endMl, "ml"));
  return (
    <>
      {values.map((value) => (
        <text class="graph-figure graph-middle" key={value} x={xOf(metricOf(value, "ml"), BOX, endMl)} y={BOTTOM + 22}>
          {plain(value)}
        </text>
      ))}
      <text class="graph-figure" x={BOX.x + BOX.width} y={BOTTOM + 40}>
        {`${unit("ml")} through the screw`}
      </text>
    </>
  );
}

function CurveTable({ point }: { point: PlanPoint }): ComponentChild {
  const { volume_ml: volumes, new_share: shares } = point.washout;
  return (
    <Table
      caption="Per cent of new fluid at the screw"
      columns={[
        { head: `after ${unit("ml")}` },
        { head: "middle", isFigure: true },
        { head: "range", isFigure: true },
      ]}
      rows={curveRows(point.washout).flatMap((place) => {
        const [ml, share] = [volumes[place], shares[place]];
        if (ml === undefined || share === undefined) return [];
        const { middle, range } = wholePerCent(share);
        return [[plain(Number(shown(ml, "ml").toPrecision(3))), middle, range]];
      })}
    />
  );
}
