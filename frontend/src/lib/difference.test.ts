// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { differenceOf } from "./difference";

function written(theirs: string, yours: string): string[] {
  const marks = { both: " ", theirs: "-", yours: "+" };
  return differenceOf(theirs, yours).map((line) => marks[line.side] + line.text);
}

test("the same text differs nowhere", () => {
  expect(written("a\nb", "a\nb")).toEqual([" a", " b"]);
});

test("a changed line stands on both sides", () => {
  expect(written("a\nb\nc", "a\nx\nc")).toEqual([" a", "-b", "+x", " c"]);
});

test("lines that were added or taken away", () => {
  expect(written("a\nc", "a\nb\nc\nd")).toEqual([" a", "+b", " c", "+d"]);
  expect(written("a\nb\nc\nd", "b\nd")).toEqual(["-a", " b", "-c", " d"]);
});

test("a repeated line is matched once", () => {
  expect(written("a\na", "a")).toEqual([" a", "-a"]);
});

test("both texts can be put together again from any difference", () => {
  // Laws: whatever is not mine is yours, whatever is not yours is mine.
  const texts = ["", "a", "a\nb\nb\na", "b\na\nc\na\nb", "c\nc\nc", "a\nb\nc\nd\ne\nf"];
  for (const theirs of texts) {
    for (const yours of texts) {
      const lines = differenceOf(theirs, yours);
      const of = (side: string): string =>
        lines.filter((line) => line.side === "both" || line.side === side).map((line) => line.text).join("\n");
      expect(of("theirs")).toBe(theirs);
      expect(of("yours")).toBe(yours);
    }
  }
});

test("two long texts with nothing in common are shown whole", () => {
  const long = (letter: string): string => Array.from({ length: 2100 }, (_, line) => letter + line).join("\n");
  expect(written(long("a"), long("b"))).toHaveLength(4200);
});
