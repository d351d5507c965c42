// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Looks as they are typed, and the course of a level; the answers are those the Python tests keep. */
import { expect, test } from "vitest";

import { levelReport, lookList } from "../../src/api/looks";
import { measures, metricOf } from "../../src/display";
import { wordsOf } from "../../src/features/level/Glass";
import { coursesOf } from "../../src/features/level/course";
import { blank, lookOf } from "../../src/features/level/look";
import { told } from "../../src/features/level/told";
import { validate } from "../../src/lib/validate";
import leak from "../../../tests/snapshots/api/level-leak.json";
import looks from "../../../tests/snapshots/api/looks.json";

const TYPED = {
  ...blank("2026-05-01", ["rear caliper"]),
  pads: { "rear caliper": { thin: "3,2", other: "" } },
};

test("answers of the server are understood", () => {
  expect(validate(levelReport, leak).ok).toBe(true);
  expect(validate(lookList, looks).ok).toBe(true);
});

test("a look is made of what was typed, empty boxes meaning nothing", () => {
  const look = lookOf({ ...TYPED, poured: "4" }, metricOf);
  expect(look).toMatchObject({
    ok: true,
    value: {
      measure: "level_share",
      level: 0.5,
      pads: { "rear caliper": { thin_mm: 3.2, other_mm: null } },
      topped_up_ml: 4,
      km: null,
      stand: "level",
    },
  });
});

test("every box that is wrong is named at once", () => {
  const typed = { ...TYPED, on: "", measure: "below_max_mm" as const, level: "low", km: "x" };
  const wrong = lookOf(typed, metricOf);
  expect(wrong.ok ? [] : Object.keys(wrong.reason).toSorted()).toEqual(["km", "level", "on"]);
});

test("inches and miles come out as millimetres and kilometres", () => {
  measures.value = "imperial";
  const look = lookOf({ ...TYPED, pads: { "rear caliper": { thin: "0.1", other: "" } }, km: "1000" }, metricOf);
  const said = told("More has gone: 28.4 ml (2.84 to 56.8) missing.");
  measures.value = "metric";
  // derived: the definitions of inch, mile and imperial fluid ounce
  expect(look.ok && look.value.pads["rear caliper"]?.thin_mm).toBe(2.54);
  expect(look.ok && look.value.km).toBe(1609.34);
  expect(said).toBe("More has gone: 1 fl oz (0.1 to 2) missing.");
});

test("the course ends at the level now, and wear alone would have left more", () => {
  const checked = validate(levelReport, leak);
  if (!checked.ok) throw checked.reason;
  const points = coursesOf(checked.value);
  expect(points.map((one) => one.on)).toEqual(["2025-10-01", "2026-03-01", "2026-04-30"]);
  const last = points[2];
  expect(last?.seen).toBeCloseTo(checked.value.above_min_ml.p50, 6);
  expect(last?.low).toBeGreaterThan(last?.seen ?? Number.POSITIVE_INFINITY);
});

test("a level is told in words", () => {
  expect([-0.1, 0, 0.35, 1].map(wordsOf)).toEqual([
    "below MIN",
    "at MIN",
    "35 % of the way from MIN to MAX",
    "at MAX",
  ]);
});

test("days in a sentence are said as people say them", () => {
  expect(told("6.3 ml missing between 2026-04-01 and 2026-05-01")).toBe("6.3 ml missing between 1 April 2026 and 1 May 2026");
});
