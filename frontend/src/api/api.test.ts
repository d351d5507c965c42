// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Every answer of the server, as its own tests keep it, is understood whole. */
import { expect, test } from "vitest";

import { validate, type Check } from "../lib/validate";
import { planAnswer, questionList, scene } from "./circuits";
import { keptPlans } from "./kept";
import { levelReport, lookList } from "./looks";
import { keptLever, leverList, leverResult } from "./levers";
import { machineDetail, machineList } from "./machines";
import { preview } from "./preview";
import { fluidList, status, techniqueList } from "./tables";

const kept = import.meta.glob<unknown>("../../../tests/snapshots/api/*.json", {
  eager: true,
  import: "default",
});
const snapshots = Object.entries(kept).map(([path, value]) => {
  return { name: path.replace(/^.*\//, "").replace(".json", ""), value };
});

const CHECKS: Readonly<Record<string, Check<unknown>>> = {
  fluids: fluidList,
  kept: keptLever,
  level: levelReport,
  looks: lookList,
  lever: leverResult,
  levers: leverList,
  machine: machineDetail,
  machines: machineList,
  plan: planAnswer,
  plans: keptPlans,
  preview,
  questions: questionList,
  scene,
  status,
  techniques: techniqueList,
};

const answers = snapshots.filter(({ name }) => !name.startsWith("refusal-"));

test("the server's tests keep answers of every kind", () => {
  const found = new Set(answers.map(({ name }) => name.split("-")[0]));
  expect([...found].sort()).toEqual(Object.keys(CHECKS).sort());
});

/** Made for the bench's sheet, or not shown by a page yet; plans kept before they were there must open still. */
const NOT_FOR_PAGES = new Set(["unit_ml", "fill_above_min_ml", "tube", "of_whole", "air"]);

function forPages(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (key, part: unknown) => (NOT_FOR_PAGES.has(key) ? undefined : part)));
}

// Equal after the check: no key was left behind, so none is unknown to the app.
test.each(answers)("$name", ({ name, value }) => {
  const check = CHECKS[name.split("-")[0] ?? ""];
  if (check === undefined) throw new Error(`there is no check for ${name}`);
  expect(validate(check, value)).toEqual({ ok: true, value: name.startsWith("level-") ? value : forPages(value) });
});
