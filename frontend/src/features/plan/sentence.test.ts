// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { beforeEach, expect, test } from "vitest";

import type { PlanAnswer } from "../../api/circuits";
import { measures } from "../../display";
import { snapshot } from "../../../tests/plan/bench";
import { bottle, guardAmount, smallAmount, wholeAmount } from "./amounts";
import { cautionsOf, FIRST_AUTHORITY, shortened } from "../../lib/cautions";
import { asSentence, changeWords, headlineOf, orderWords, ownerWords, spoken, wayWords } from "./sentence";

let answer: PlanAnswer;

beforeEach(() => {
  answer = snapshot<PlanAnswer>("plan-skerry-front");
  measures.value = "metric";
});

/** The kept plan with other millilitres of old fluid in its parts. */
function holding(ml: Record<string, number>): PlanAnswer {
  const parts_ml = Object.fromEntries(
    Object.entries(ml).map(([name, middle]) => [name, { p05: middle, p50: middle, p95: middle }]),
  );
  const left_old = { ...answer.plan.left_old, parts_ml };
  return { ...answer, plan: { ...answer.plan, left_old } };
}

function sentenceOf({ plan, scene }: PlanAnswer): string {
  return headlineOf(plan, scene).sentence;
}

test("the part that holds more than half holds most of it, else much of it", () => {
  expect(sentenceOf(holding({ "abs unit": 6, "left caliper": 5 }))).toMatch(/^stays old, most of it in the ABS unit;/);
  expect(sentenceOf(holding({ "abs unit": 5, "left caliper": 5 }))).toMatch(/^stays old, much of it in the ABS unit;/);
  expect(sentenceOf(holding({ "abs unit": 0 }))).toMatch(/^stays old; riding evens the calipers out to/);
});

test("a lone kind is named by its kind, one of several by its own name, a line by its ends", () => {
  expect(spoken("abs unit", answer.scene)).toBe("ABS unit");
  expect(spoken("pot", answer.scene)).toBe("reservoir");
  expect(spoken("left caliper", answer.scene)).toBe("left caliper");
  expect(spoken("master > abs unit", answer.scene)).toBe("line from master to abs unit");
  expect(ownerWords("screw:left caliper", answer.scene)).toBe("screw on the left caliper");
  expect(ownerWords("close before release", answer.scene)).toBe("close before release");
});

test("a plan without a width has no band", () => {
  const whole = { p05: 0.1, p50: 0.1, p95: 0.1 };
  const plan = { ...answer.plan, left_old: { ...answer.plan.left_old, whole } };
  expect(headlineOf(plan, answer.scene)).toMatchObject({ figure: "10 %", band: "" });
});

test("a change says what it did, or that it did nothing that shows", () => {
  const { plan } = answer;
  const whole = { p05: 0.05, p50: 0.08, p95: 0.11 };
  const minutes = { p05: 20, p50: 25, p95: 30 };
  const better = { ...plan, minutes, left_old: { ...plan.left_old, whole } };
  // regression: the figures of the kept plan
  expect(changeWords(plan, better)).toBe("10 % (6–14) is now 8 % (5–11); 25–41 minutes are now 20–30.");
  expect(changeWords(plan, plan)).toBe("10 % (6–14) stays old, as before.");
});

test("the order says what the other one would cost", () => {
  const withOrder = (difference_ml: number, either: boolean): string =>
    orderWords({ ...answer.plan, order: { reason: "as the manual has it", difference_ml, either } }, "4 ml");
  expect(withOrder(4, false)).toBe("as the manual has it; the other way round takes 4 ml more");
  expect(withOrder(-4, false)).toBe("as the manual has it; the other way round takes 4 ml less");
  expect(withOrder(0, false)).toBe("as the manual has it");
  expect(withOrder(0.2, true)).toBe("as the manual has it; either order would do, they differ by 4 ml");
});

test("the way is said whole", () => {
  expect(wayWords({ ...answer.plan, pistons_home_first: true })).toBe(
    "by lever (close before release), pistons home first · DOT 4 · each screw until 95 % new · 1 May 2026",
  );
});

test("a sentence begins large and ends once", () => {
  expect(asSentence("count the pistons")).toBe("Count the pistons.");
  expect(asSentence("Is it?")).toBe("Is it?");
});

test("amounts follow the measures, a guard rounds down, a bottle stays as sold", () => {
  const band = { p05: 28.9, p50: 30, p95: 31 };
  expect([guardAmount(band), smallAmount(-0.26), wholeAmount(40.6), bottle(250)]).toEqual([
    "28 ml",
    "0.3 ml",
    "41 ml",
    "250 ml",
  ]);
  measures.value = "imperial";
  // independent: published size of the imperial fluid ounce, 28.4130625 ml
  expect([guardAmount(band), smallAmount(-0.26), wholeAmount(40.6), bottle(250)]).toEqual([
    "1.0 fl oz",
    "0.011 fl oz",
    "1.4 fl oz",
    "250 ml (8.8 fl oz)",
  ]);
});

test("cautions come apart at their topic, and who comes first stands by itself", () => {
  expect(cautionsOf(["Eyes: wear glasses.", "Fill to the line.", FIRST_AUTHORITY])).toEqual([
    { topic: "Eyes", words: "wear glasses." },
    { topic: "", words: "Fill to the line." },
  ]);
});

test("the kept plan says who comes first in the words that are looked for", () => {
  expect(answer.plan.cautions.filter((text) => text === FIRST_AUTHORITY)).toHaveLength(1);
});

test("a short caution is made of whole sentences and never says too little", () => {
  const long = "It squirts. Ring spanner on first, then the tube with a clip, a rag round it. With a line open wait.";
  expect(shortened(long)).toBe("It squirts. Ring spanner on first, then the tube with a clip, a rag round it.");
  expect(shortened("Wear gloves.")).toBe("Wear gloves.");
});
