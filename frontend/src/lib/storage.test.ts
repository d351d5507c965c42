// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test, vi } from "vitest";

import { forget, recall, remember } from "./storage";
import { whole } from "./validate";

test("what is remembered is recalled until it is forgotten", () => {
  expect(recall("count", whole, 0)).toBe(0);
  expect(remember("count", 3)).toBe(true);
  expect(recall("count", whole, 0)).toBe(3);
  forget("count");
  expect(recall("count", whole, 0)).toBe(0);
});

test.each(["{", '"three"', "null"])("what is not understood is left aside: %s", (kept) => {
  localStorage.setItem("count", kept);
  expect(recall("count", whole, 7)).toBe(7);
});

test("a browser that keeps nothing stops nobody", () => {
  vi.stubGlobal("localStorage", {
    getItem: () => {
      throw new DOMException("no", "SecurityError");
    },
    setItem: () => {
      throw new DOMException("full", "QuotaExceededError");
    },
    removeItem: () => {
      throw new DOMException("no", "SecurityError");
    },
  });
  expect(recall("count", whole, 1)).toBe(1);
  expect(remember("count", 2)).toBe(false);
  expect(() => forget("count")).not.toThrow();
  vi.unstubAllGlobals();
});
