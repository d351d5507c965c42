// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { afterEach, expect, test } from "vitest";

import { amount, bandAmount, followDisplay, measures, metricOf, middleAmount, say, shown, theme, unit, words } from "./display";

afterEach(() => {
  words.value = "uk";
  measures.value = "metric";
  theme.value = "as the device";
});

const band = { p05: 67, p50: 73, p95: 80 };

test("metric amounts are as they are kept", () => {
  expect(amount(12.7, 12.7, "mm")).toBe("13 mm");
  expect(bandAmount(band, "ml")).toBe("67–80 ml");
  expect(middleAmount(band, "ml")).toBe("73 ml");
  expect(amount(0.2, 0.4, "")).toBe("0.20–0.40");
});

// Published: the definitions of the inch, the pound, the imperial fluid ounce, the psi.
test.each([
  ["mm", 25.4, 1, "in"],
  ["ml", 28.4130625, 1, "fl oz"],
  ["kg", 0.45359237, 1, "lb"],
  ["degC", 100, 212, "°F"],
  ["degC", -40, -40, "°F"],
  ["kPa", 6.894757, 1, "psi"],
  ["bar", 0.06894757, 1, "psi"],
  ["mm2/s", 3, 3, "mm2/s"],
])("imperial %s", (metric, value, expected, label) => {
  measures.value = "imperial";
  expect(shown(value, metric)).toBeCloseTo(expected, 9);
  expect(metricOf(shown(value, metric), metric)).toBeCloseTo(value, 9);
  expect(unit(metric)).toBe(label);
});

test("digits follow the band in whatever measure it is shown", () => {
  measures.value = "imperial";
  expect(bandAmount(band, "ml")).toBe("2.4–2.8 fl oz");
});

test("what was chosen is remembered and told to the page", () => {
  followDisplay();
  words.value = "us";
  theme.value = "dark";
  measures.value = "imperial";
  expect(say("ring spanner")).toBe("box-end wrench");
  expect(document.documentElement.lang).toBe("en-US");
  expect(document.documentElement.dataset["theme"]).toBe("dark");
  expect([localStorage.getItem("words"), localStorage.getItem("measures"), localStorage.getItem("theme")]).toEqual([
    '"us"',
    '"imperial"',
    '"dark"',
  ]);
  theme.value = "as the device";
  expect(document.documentElement.dataset["theme"]).toBeUndefined();
});
