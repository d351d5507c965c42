// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { curvePaths, curveRows } from "./curve";
import { ticks } from "./scale";

test.each([
  [81, 5, [0, 20, 40, 60, 80]],
  [2.85, 5, [0, 1, 2]],
  [0.3, 5, [0, 0.1, 0.2, 0.3]],
  [0, 5, [0]],
  [Number.NaN, 5, [0]],
])("an axis to %f has round figures", (end, most, expected) => {
  expect(ticks(end, most)).toEqual(expected);
});

const BAND = { p05: 0, p50: 0.5, p95: 1 };
const WASHOUT = { volume_ml: [0, 10, 20], new_share: [BAND, BAND, BAND] };

test("the band runs out along its low end and back along its high end", () => {
  // derived: ends of a box of 100 by 40 units
  const paths = curvePaths(WASHOUT, { x: 0, y: 0, width: 100, height: 40 }, 20);
  expect(paths.band).toBe("M0 40L50 40L100 40L100 0L50 0L0 0Z");
  expect(paths.middle).toBe("M0 20L50 20L100 20");
});

test("the table has the first and the last point and no more than it can hold", () => {
  const volume_ml = Array.from({ length: 40 }, (_, place) => place);
  const rows = curveRows({ volume_ml, new_share: volume_ml.map(() => BAND) }, 10);
  expect(rows.at(0)).toBe(0);
  expect(rows.at(-1)).toBe(39);
  expect(rows.length).toBeLessThanOrEqual(12);
});
