// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The washout at a screw as paths: how much of what comes out is new. */
import type { Washout } from "../../api/plan";
import type { Box } from "../../drawing/layers";

export interface CurvePaths {
  readonly band: string;
  readonly middle: string;
}

export function curvePaths(washout: Washout, box: Box, endMl: number): CurvePaths {
  const at = (ml: number, share: number): string =>
    `${round(xOf(ml, box, endMl))} ${round(yOfShare(share, box))}`;
  const points = washout.volume_ml.flatMap((ml, place) => {
    const share = washout.new_share[place];
    return share === undefined ? [] : [{ ml, share }];
  });
  const low = points.map(({ ml, share }) => at(ml, share.p05));
  const high = points.map(({ ml, share }) => at(ml, share.p95));
  const middle = points.map(({ ml, share }) => at(ml, share.p50));
  return { band: `M${[...low, ...high.toReversed()].join("L")}Z`, middle: `M${middle.join("L")}` };
}

/** The rows a table needs to say the same: every few points and the last. */
export function curveRows(washout: Washout, most = 10): readonly number[] {
  const last = washout.volume_ml.length - 1;
  const step = Math.max(1, Math.ceil(last / most));
  const places = washout.volume_ml.map((_, place) => place);
  return places.filter((place) => place % step === 0 || place === last);
}

export function xOf(ml: number, box: Box, endMl: number): number {
  return box.x + (endMl > 0 ? Math.min(ml / endMl, 1) : 0) * box.width;
}

export function yOfShare(share: number, box: Box): number {
  return box.y + (1 - share) * box.height;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
