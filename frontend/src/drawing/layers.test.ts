// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { layerPath, layersOf, REST, widestPlace } from "./layers";

const STRIP = {
  slice_ml: 2,
  origins: ["caliper", "splitter", "new"],
  shares: [
    [1, 0, 0],
    [0.49, 0.01, 0.5],
  ],
};

test("an origin that never shows goes into the rest, and new fluid stands last", () => {
  // derived: 2 ml x (1 + 0.49), 2 ml x 0.01, 2 ml x 0.5
  const layers = layersOf(STRIP);
  expect(layers.origins).toEqual(["caliper", REST, "new"]);
  expect(layers.totalMl).toBe(4);
  [2.98, 0.02, 1].forEach((ml, place) => expect(layers.ml[place]).toBeCloseTo(ml, 12));
});

test("a long strip is joined into at most sixty slices that hold as much as before", () => {
  const shares = Array.from({ length: 130 }, (_, place) => [1 - place / 130, place / 130]);
  const layers = layersOf({ slice_ml: 1, origins: ["caliper", "new"], shares });
  // derived: 130 slices, three by three, make 43 whole ones and one of a single millilitre
  expect(layers.slices).toHaveLength(44);
  expect(layers.slices.at(-1)).toMatchObject({ from: 129, to: 130 });
  const old = shares.reduce((sum, [share = 0]) => sum + share, 0);
  expect(layers.ml[0]).toBeCloseTo(old, 9);
});

test("a layer is a stepped path, the first millilitre at the bottom", () => {
  // derived: 2 ml of 4 are half of the 100 units of height; 0.5 of 40 units of width from x = 10
  const layers = layersOf({ ...STRIP, origins: ["caliper", "new"], shares: [[1, 0], [0.5, 0.5]] });
  const box = { x: 10, y: 0, width: 40, height: 100 };
  expect(layerPath(layers, 0, box)).toBe("M10 100L10 50L10 50L10 0L30 0L30 50L50 50L50 100Z");
  expect(widestPlace(layers, 0, box)).toEqual({ x: 30, y: 75, width: 40 });
  expect(widestPlace(layers, 1, box)).toEqual({ x: 40, y: 25, width: 20 });
});

test("a strip with nothing in it draws nothing", () => {
  const layers = layersOf({ slice_ml: 1, origins: ["new"], shares: [] });
  expect(layers).toMatchObject({ slices: [], totalMl: 0 });
});
