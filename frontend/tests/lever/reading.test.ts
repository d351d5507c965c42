// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** From typed pairs to newtons and millimetres and back, and sentences in the chosen measures. */
import { afterEach, describe, expect, test } from "vitest";

import { measures, scale } from "../../src/display";
import type { LeverDraft } from "../../src/drafts";
import { faultsOf, figureIn, gathered, inUnits, nameOf, newDraft, withNext } from "../../src/features/lever/reading";
import { along, ticks } from "../../src/features/lever/scale";
import { told, workedBy } from "../../src/features/lever/told";
import { newtonsOf, onScale } from "../../src/lib/units";

afterEach(() => {
  measures.value = "metric";
  scale.value = "N";
  workedBy.value = "lever";
});

function withRows(draft: LeverDraft, at: number, rows: readonly (readonly [string, string])[]): LeverDraft {
  const typed = rows.map(([one, travel]) => ({ at: one, travel }));
  return { ...draft, sets: draft.sets.map((set, place) => (place === at ? { ...set, rows: typed } : set)) };
}

test("a kilogram and a pound on the scale are so many newtons", () => {
  // published: standard gravity 9.80665 m/s2; derived: times 0.45359237 kg
  expect(newtonsOf(2, "kg")).toBeCloseTo(19.6133, 6);
  expect(newtonsOf(1, "lb")).toBeCloseTo(4.448222, 6);
  expect(onScale(newtonsOf(7, "lb"), "lb")).toBeCloseTo(7, 12);
});

test("a new draft's ruler is a millimetre, whatever is shown", () => {
  const inches = newDraft("lb", "imperial");
  expect(inches.ruler).toBe("0.0394");
  expect(inUnits(inches, "N", "metric").ruler).toBe("1");
  expect(inches.sets.map(({ held }) => held)).toEqual(["", "", "", "22.5", "22.5"]);
});

test("what is typed changes with the units shown; seconds and what is no figure stay", () => {
  const draft = withRows(withRows(newDraft("N", "metric"), 0, [["98.0665", "25.4"], ["x", ""]]), 3, [["30", "12,7"]]);
  const other = inUnits(draft, "kg", "imperial");
  expect(other.sets[0]?.rows).toEqual([{ at: "10", travel: "1" }, { at: "x", travel: "" }]);
  expect(other.sets[3]?.rows).toEqual([{ at: "30", travel: "0.5" }]);
  expect(other.sets[3]?.held).toBe("10.2");
  expect(inUnits(draft, "N", "metric")).toBe(draft);
});

test("pulls are sent before holds, and every row knows where it stands", () => {
  let draft = withRows(newDraft("kg", "metric"), 3, [["0", "20"], ["10", "21"]]);
  draft = { ...draft, sets: [...draft.sets, { kind: "first", held: "", rows: [] }] };
  draft = withRows(draft, 5, [["1", "9"], ["", ""], ["2", "12"]]);
  const { sets, holds, places, faults } = gathered(draft);
  expect(sets).toEqual([{ kind: "first", force_n: [9.80665, 19.6133], travel_mm: [9, 12] }]);
  expect(holds).toEqual([{ pace: "slow", force_n: 100.028, seconds: [0, 10], travel_mm: [20, 21] }]);
  expect(places).toEqual([{ set: 5, row: 0 }, { set: 5, row: 2 }, { set: 3, row: 0 }, { set: 3, row: 1 }]);
  expect(faults).toEqual([]);
  expect(nameOf(draft.sets, 5)).toBe("First pull 2");
});

test("a hold without its force is told at its first row", () => {
  const draft = withRows(newDraft("N", "metric"), 3, [["", ""], ["0", "20"]]);
  const bare = { ...draft, sets: draft.sets.map((set) => ({ ...set, held: "" })) };
  expect(gathered(bare).faults).toEqual([
    { set: 3, row: 1, words: "The force of this hold is missing: it stands above." },
  ]);
});

test("a fault of no row, or of an earlier test's row, is told of the whole", () => {
  const problem = { place: "the table", found: "no readings", allowed: "at least one set of readings" };
  const told2 = faultsOf([{ ...problem, line: 0 }, { ...problem, line: 2 }, { ...problem, line: 4 }], [{ set: 1, row: 7 }], 3);
  expect(told2.rows.map(({ set, row }) => [set, row])).toEqual([[1, 7]]);
  expect(told2.whole).toEqual(Array.from({ length: 2 }, () => "No readings; at least one set of readings."));
});

test.each([
  ["12", 12],
  [" 12,5 ", 12.5],
  ["12 mm", null],
  ["", null],
  ["1e3", null],
])("“%s” is read as %s", (text, value) => {
  expect(figureIn(text)).toBe(value);
});

test("the next row is open once the last is begun", () => {
  expect(withNext([])).toHaveLength(1);
  expect(withNext([{ at: "8", travel: "" }])).toHaveLength(2);
  expect(withNext([{ at: "8", travel: "9" }, { at: "", travel: " " }])).toHaveLength(2);
});

describe("sentences", () => {
  test("stay as they are in metric with newtons", () => {
    expect(told("0.73 (0.64 to 0.83) ml at 100 N over 5 mm")).toBe("0.73 (0.64 to 0.83) ml at 100 N over 5 mm");
  });
  test("say pedal where it is one", () => {
    workedBy.value = "pedal";
    expect(told("an unpumped lever; a lever meets the grip before 90 mm; levers; a lever test")).toBe(
      "an unpumped pedal; a pedal meets its stop before 90 mm; levers; a lever test",
    );
  });
  test("change force alone with the scale", () => {
    scale.value = "kg";
    // derived: over 9.80665
    expect(told("the force goes from 20 to 15 N, 5 mm on")).toBe("the force goes from 2.04 to 1.53 kg, 5 mm on");
    expect(told("3 readings; at least 4, nothing more.")).toBe("3 readings; at least 4, nothing more.");
  });
  test("change lengths and volumes alone with the measures", () => {
    measures.value = "imperial";
    // derived: over 28.4130625 and 25.4
    expect(told("is known: 0.73 (0.64 to 0.83) ml. A set")).toBe("is known: 0.0257 (0.0225 to 0.0292) fl oz. A set");
    expect(told("sinks by 11.0 mm a minute (9.8 to 12.2): 0.40 ml of fluid at 100 N")).toBe(
      "sinks by 0.433 in a minute (0.386 to 0.48): 0.0141 fl oz of fluid at 100 N",
    );
  });
});

test("an axis ends at or above its last value in round steps", () => {
  expect(ticks(34)).toEqual([0, 10, 20, 30, 40]);
  expect(ticks(0.37, 3)).toEqual([0, 0.2, 0.4]);
  expect(ticks(80, 3)).toEqual([0, 50, 100]);
  expect(along(25, 100, 40, 240)).toBe(90);
});
