// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import symptoms from "./symptoms.json";

test("there are ten complaints, each with a check that tells at least two causes apart", () => {
  expect(symptoms).toHaveLength(10);
  expect(new Set(symptoms.map((one) => one.id)).size).toBe(10);
  for (const one of symptoms) {
    expect(one.check).toMatch(/\.$/);
    expect(one.tells.length).toBeGreaterThanOrEqual(2);
    expect(one.tells.every((tell) => tell.sees !== "" && tell.means.endsWith("."))).toBe(true);
  }
});

test("where a brake may fail, work stops", () => {
  const stops = symptoms.filter((one) => one.stop !== null).map((one) => one.id);
  expect(stops).toEqual(["creeps", "first pull", "binds", "seized nipple", "level"]);
  expect(JSON.stringify(symptoms)).not.toMatch(/safe to ride/i);
});
