// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import type { PlanWish } from "./circuits";
import { queryOf, wishOf, withChange } from "./wish";

const FULL: PlanWish = {
  work: "fill",
  method: "vacuum",
  technique: "steady pump",
  target: 0.98,
  pistons_home: true,
  fluid: "DOT 5.1",
  workshop_degc: -4.5,
  seed: 7,
};

test("a link brings back the wish it was made from", () => {
  expect(wishOf(`#/m/a/plan/front${queryOf(FULL)}`)).toEqual(FULL);
  expect(queryOf({})).toBe("");
  expect(wishOf("#/m/a/plan/front")).toEqual({});
});

test("what a link cannot mean is left to the usual", () => {
  expect(wishOf("#/?work=polish&method=magic&target=much&workshop_degc=&seed=x&pistons_home=no")).toEqual({});
});

test("what cannot be is left for the server to say no to", () => {
  expect(wishOf("#/?target=2")).toEqual({ target: 2 });
});

test("a change sets, replaces and takes back", () => {
  const other = withChange(FULL, { method: "lever", technique: undefined, pistons_home: false });
  expect(other).toEqual({ work: "fill", method: "lever", target: 0.98, fluid: "DOT 5.1", workshop_degc: -4.5, seed: 7 });
});
