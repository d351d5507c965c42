// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import type { Deed } from "../../src/bench/event";
import { passageOf } from "../../src/bench/marks";
import { stateOf } from "../../src/bench/state";
import { atFirstScrew, log, opened, sheetNamed } from "./bench";
import { inSight } from "../../src/features/bench/LiveStrip";
import { nextStep, type Skipped } from "../../src/features/bench/step";

const PLAIN = sheetNamed("plain");
const NONE: Skipped = { samples: [], cups: [], more: [], unit: false };

function stepAfter(deeds: readonly Deed[], skipped: Partial<Skipped> = {}) {
  const events = log(deeds);
  return nextStep(PLAIN, stateOf(PLAIN, events), events, { ...NONE, ...skipped });
}

test("the reservoir comes before any screw: drawn down, then filled", () => {
  expect(stepAfter(opened(PLAIN))).toEqual({ kind: "draw down" });
  expect(stepAfter([...opened(PLAIN), { kind: "drawn_down" }])).toEqual({ kind: "fill" });
  expect(stepAfter([...opened(PLAIN), { kind: "drawn_down" }, { kind: "topped_up", to: "max" }])).toEqual({
    kind: "choose screw",
    next: 0,
  });
});

test("a set is never longer than the reservoir vouches for", () => {
  const deeds: readonly Deed[] = [...atFirstScrew(PLAIN), { kind: "set_done", point: 0, count: 4 }];
  const state = stateOf(PLAIN, log(deeds));
  const step = stepAfter(deeds, { samples: [0], cups: [0] });
  expect(state.pot.counts_left).toBeLessThan(5);
  expect(step).toEqual(
    state.pot.next_set === 0 ? { kind: "top up" } : { kind: "set", size: state.pot.next_set },
  );
});

test("a screw that runs clear and is full of new fluid is judged, unless somebody goes on", () => {
  // derived: 60 strokes of 2 ml are three times what the first screw takes
  const deeds: readonly Deed[] = [
    ...atFirstScrew(PLAIN),
    { kind: "set_done", point: 0, count: 60 },
    { kind: "topped_up", to: "max" },
    { kind: "mark", point: 0, look: "clear" },
  ];
  expect(stepAfter(deeds, { samples: [0], cups: [0] }).kind).toBe("judge");
  expect(stepAfter(deeds, { samples: [0], cups: [0], more: [0] }).kind).toBe("set");
  const dark: Deed = { kind: "mark", point: 0, look: "dark" };
  expect(stepAfter([...deeds, dark], { samples: [0], cups: [0] }).kind).toBe("set");
});

test("once all screws are shut the next screw is not asked for", () => {
  const shut: readonly Deed[] = [
    { kind: "shut", point: 0, is_done: true, reason: null },
    { kind: "at_screw", point: 1 },
    { kind: "shut", point: 1, is_done: true, reason: null },
  ];
  expect(stepAfter([...atFirstScrew(PLAIN), ...shut.slice(0, 1)])).toEqual({ kind: "choose screw", next: 1 });
  expect(stepAfter([...atFirstScrew(PLAIN), ...shut], { unit: true })).toMatchObject({ kind: "gate", number: 1, of: 2 });
});

test("the ABS unit's turn comes between the last screw and the first question", () => {
  const shut: readonly Deed[] = [
    ...atFirstScrew(PLAIN),
    { kind: "shut", point: 0, is_done: true, reason: null },
    { kind: "at_screw", point: 1 },
    { kind: "shut", point: 1, is_done: true, reason: null },
  ];
  const cycled: readonly Deed[] = [...shut, { kind: "unit_cycled", how: "maker's tool" }];
  expect(stepAfter(shut)).toEqual({ kind: "cycle unit" });
  expect(stepAfter(cycled)).toEqual({ kind: "second pass" });
  expect(stepAfter(cycled, { unit: true }).kind).toBe("gate");
  // back from a lever test that was offered after it: it is not asked again
  const measured: Deed = { kind: "measured", what: "air left", value: 0.2, unit: "ml" };
  expect(stepAfter([...shut, measured]).kind).toBe("gate");
  expect(stepAfter([...shut.slice(0, 1), measured, ...shut.slice(1)])).toEqual({ kind: "cycle unit" });
  expect(stepAfter([...shut, measured, ...cycled.slice(-1)])).toEqual({ kind: "second pass" });
  const again: readonly Deed[] = [
    ...cycled,
    { kind: "at_screw", point: 0 },
    { kind: "set_done", point: 0, count: 5 },
    { kind: "shut", point: 0, is_done: true, reason: null },
  ];
  expect(stepAfter(again).kind).toBe("gate");
  const asked = PLAIN.gates.find(({ before }) => before === "rolling")?.id ?? "";
  expect(stepAfter([...shut, { kind: "gate", gate: asked, answer: "yes", reason: null }]).kind).toBe("gate");
});

test("the unit's fluid comes out between the slices in which a tenth of its height is seen", () => {
  // by hand: height 0.4 in the third slice of 2 ml; a tenth and more from the second to the fourth
  const shares = [[0, 1], [0.05, 0.9], [0.4, 0.6], [0.1, 0.9], [0.03, 0.97]];
  const strip = { slice_ml: 2, origins: ["abs unit", "new"], shares };
  expect(passageOf(strip, "abs unit")).toEqual({ p05: 2, p50: 5, p95: 8 });
  expect(passageOf(strip, "left caliper")).toBeNull();
});

test("a stretch's name stands beside what of it is still to come, and only where it fits", () => {
  const all = [
    { name: "left caliper", from: 0, to: 6 },
    { name: "lines", from: 6, to: 30 },
    { name: "new", from: 30, to: 60 },
  ];
  // by hand: 36.8 ml fill the window; two lines of a name need 5.8 ml, one line 3.2 ml
  expect(inSight(all, 0)).toEqual([all[0], all[1], { name: "new", from: 30, to: 36.8 }]);
  expect(inSight(all, 1)).toEqual([{ name: "lines", from: 5, to: 29 }, { name: "new", from: 29, to: 36.8 }]);
});

const BLEED = sheetNamed("bleed");
const FILL = sheetNamed("fill");

function stepOf(sheet: typeof PLAIN, deeds: readonly Deed[]) {
  const events = log(deeds);
  return nextStep(sheet, stateOf(sheet, events), events, { ...NONE, cups: [0] });
}

/** Filled without drawing down, at the first screw. */
function atScrewUndrawn(sheet: typeof PLAIN): readonly Deed[] {
  return [...opened(sheet), { kind: "topped_up", to: "max" }, { kind: "at_screw", point: 0 }];
}

const yes = (gate: string): Deed => ({ kind: "gate", gate, answer: "yes", reason: null });
const strokes = (count: number): readonly Deed[] => [
  { kind: "set_done", point: 0, count },
  { kind: "topped_up", to: "max" },
];

test("a bleed draws nothing down and catches nothing apart", () => {
  expect(stepOf(BLEED, opened(BLEED))).toEqual({ kind: "fill" });
  expect(stepOf(BLEED, [...atScrewUndrawn(BLEED), yes("posture 1")]).kind).toBe("set");
});

test("a posture is asked once, at its screw and no other", () => {
  expect(stepOf(BLEED, atScrewUndrawn(BLEED))).toMatchObject({ kind: "gate", gate: { id: "posture 1" }, number: 1, of: 1 });
  expect(stepOf(BLEED, [...atScrewUndrawn(BLEED), { kind: "at_screw", point: 1 }]).kind).toBe("set");
});

test("a bleed's screw is judged after its volume and five strokes without a bubble", () => {
  // derived: 20 strokes of 2 ml are the 40 ml the screw wants
  const begun = [...atScrewUndrawn(BLEED), yes("posture 1")];
  const bubbles: Deed = { kind: "mark", point: 0, look: "bubbles" };
  expect(stepOf(BLEED, [...begun, ...strokes(19)]).kind).toBe("set");
  expect(stepOf(BLEED, [...begun, ...strokes(20)]).kind).toBe("judge");
  expect(stepOf(BLEED, [...begun, ...strokes(20), bubbles, ...strokes(4)]).kind).toBe("set");
  expect(stepOf(BLEED, [...begun, ...strokes(20), bubbles, ...strokes(5)]).kind).toBe("judge");
  const clear: Deed = { kind: "mark", point: 0, look: "clear" };
  expect(stepOf(BLEED, [...begun, ...strokes(6), clear]).kind).toBe("set");
});

test("a fill asks for the step on the way before, and for the one at the screw after its strokes", () => {
  const begun = atScrewUndrawn(FILL);
  expect(stepOf(FILL, begun)).toMatchObject({ gate: { id: "step 1" } });
  expect(stepOf(FILL, [...begun, yes("step 1")]).kind).toBe("set");
  expect(stepOf(FILL, [...begun, yes("step 1"), ...strokes(20)])).toMatchObject({ gate: { id: "step 2" } });
  expect(stepOf(FILL, [...begun, yes("step 1"), ...strokes(20), yes("step 2")]).kind).toBe("judge");
});
