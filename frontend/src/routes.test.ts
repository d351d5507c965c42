// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { routeOf, to } from "./routes";

test.each([
  ["", { screen: "machines" }],
  ["#/", { screen: "machines" }],
  ["#/new", { screen: "new" }],
  ["#/new?page=fork", { screen: "new" }],
  ["#/settings", { screen: "settings" }],
  ["#/m/a1", { screen: "machine", id: "a1" }],
  ["#/m/a1/describe/front", { screen: "questions", id: "a1", circuit: "front" }],
  ["#/m/a1/plan/front", { screen: "plan", id: "a1", circuit: "front" }],
  ["#/m/a1/plan/front/print", { screen: "print", id: "a1", circuit: "front" }],
  ["#/m/a1/kept/7", { screen: "kept", id: "a1", plan: "7" }],
  ["#/m/a1/kept", { screen: "nowhere" }],
  ["#/m/a1/kept/7/more", { screen: "nowhere" }],
  ["#/m", { screen: "nowhere" }],
  ["#/m/a1/plan", { screen: "nowhere" }],
  ["#/m/a1/plan/front/print/more", { screen: "nowhere" }],
  ["#/m/a1/describe/front/print", { screen: "nowhere" }],
  ["#/m/a1/level/front", { screen: "level", id: "a1", circuit: "front" }],
  ["#/m/a1/level/front/more", { screen: "nowhere" }],
  ["#/m/a1/lever/front", { screen: "lever", id: "a1", circuit: "front" }],
  ["#/m/a1/lever/front?job=j1", { screen: "lever", id: "a1", circuit: "front" }],
  ["#/m/a1/lever/front/more", { screen: "nowhere" }],
  ["#/m/a1/lever", { screen: "nowhere" }],
  ["#/phones", { screen: "phones" }],
  ["#/phones/more", { screen: "nowhere" }],
  ["#/job/j1", { screen: "job", id: "j1" }],
  ["#/job/j1/record", { screen: "record", id: "j1" }],
  ["#/job/j1/record/more", { screen: "nowhere" }],
  ["#/else", { screen: "nowhere" }],
])("%s leads somewhere", (hash, route) => {
  expect(routeOf(hash)).toEqual(route);
});

test.each(["front", "left/right", "a b", "50 %", "ä?#"])("a circuit called “%s” is found again", (circuit) => {
  expect(routeOf(to.plan("id 1", circuit))).toEqual({ screen: "plan", id: "id 1", circuit });
  expect(routeOf(to.questions("id 1", circuit))).toEqual({ screen: "questions", id: "id 1", circuit });
});

test("an address with a broken escape is taken as it stands", () => {
  expect(routeOf("#/m/50%")).toEqual({ screen: "machine", id: "50%" });
});
