// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { describe, expect, test } from "vitest";

import vectors from "../../../tests/data/writing.json";
import { atLeast, bandMiddle, bandRange, count, counted, perCent, plain, span, times } from "./figures";
import { speak } from "./words";

describe("figures are written as in Python", () => {
  test.each(vectors.span)("$low to $high is $written", ({ low, high, written }) => {
    expect(span(low, high)).toBe(written);
  });

  test.each(vectors.band)("$p05, $p50, $p95 is $per_cent", (vector) => {
    const hundredth = { p05: vector.p05 / 100, p50: vector.p50 / 100, p95: vector.p95 / 100 };
    expect({
      range: bandRange(vector),
      middle: bandMiddle(vector),
      at_least: atLeast(vector),
      per_cent: perCent(hundredth),
    }).toEqual({
      range: vector.range,
      middle: vector.middle,
      at_least: vector.at_least,
      per_cent: vector.per_cent,
    });
  });

  test.each(vectors.count)("$p05 to $p95 strokes", (vector) => {
    expect(count(vector)).toBe(vector.written);
    expect(times(vector)).toBe(vector.times);
    expect(counted(count(vector), "stroke")).toBe(vector.strokes);
  });

  test.each(vectors.plain)("$value is $written", ({ value, written }) => {
    expect(plain(value)).toBe(written);
  });
});

test.each(vectors.american)("American words: $said", ({ text, keep, said }) => {
  expect(speak(text, "us", keep)).toBe(said);
  expect(speak(text, "uk", keep)).toBe(text);
});
