// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { both, either, listOf, mapOf, number, oneOf, orNull, pairOf, record, text, validate, whole, yesNo, type Check } from "./validate";

const part = record({ id: text, sizes: listOf(number), kind: oneOf("caliper", "pot"), wheel: orNull(text) });

test("what fits comes through, and what nobody agreed on is left behind", () => {
  const value = { id: "a", sizes: [32, 28], kind: "pot", wheel: null };
  expect(validate(part, { ...value, more: 1 })).toEqual({ ok: true, value });
});

test.each<[Check<unknown>, unknown, string]>([
  [text, 1, "the answer should be a text and is 1"],
  [number, "1", 'the answer should be a number and is "1"'],
  [number, Number.NaN, "the answer should be a number and is null"],
  [whole, 1.5, "the answer should be a whole number and is 1.5"],
  [yesNo, 0, "the answer should be true or false and is 0"],
  [oneOf("a", "b"), "c", 'the answer should be one of a, b and is "c"'],
  [listOf(number), {}, "the answer should be a list and is an object"],
  [listOf(number), [1, null], "[1] should be a number and is null"],
  [pairOf(number, number), [1], "the answer should be a pair and is a list"],
  [mapOf(number), [], "the answer should be an object and is a list"],
  [mapOf(number), { a: { b: 1 } }, "a should be a number and is an object"],
  [part, { id: "a", sizes: [1] }, "kind should be one of caliper, pot and is missing"],
  [record({ parts: listOf(part) }), { parts: [{}] }, "parts[0].id should be a text and is missing"],
  [either(number, text), true, "the answer should be a text and is true"],
])("what does not fit is named by its place", (check, value, message) => {
  const found = validate(check, value);
  expect(found.ok ? "" : found.reason.message).toBe(message);
});

test("a record may be joined to another, and a kind may be one of two", () => {
  expect(validate(both(record({ a: number }), record({ b: text })), { a: 1, b: "x" })).toEqual({
    ok: true,
    value: { a: 1, b: "x" },
  });
  expect(validate(either(number, text), "x")).toEqual({ ok: true, value: "x" });
});

test("a fault of a check itself is not taken for a misfit", () => {
  const broken: Check<never> = () => {
    throw new RangeError("ours");
  };
  expect(() => validate(broken, 1)).toThrow("ours");
});
