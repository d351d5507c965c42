// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Folded on from what was there, or anew: it comes to the same, in whatever order events come. */
import { describe, expect, test } from "vitest";

import { growing } from "../../src/bench/grow";
import { inOrder } from "../../src/bench/order";
import { stateOf } from "../../src/bench/state";
import { eventsOf, histories, sheetOf } from "./histories";

const SEEDS = [1, 2, 3];

/** Numbers from 0 to 1 that are the same each time (mulberry32; independent: common algorithm). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

function shuffled<Value>(values: readonly Value[], next: () => number): readonly Value[] {
  return values
    .map((value) => ({ value, at: next() }))
    .toSorted((one, other) => one.at - other.at)
    .map(({ value }) => value);
}

describe.each(histories)("%s", (_, history) => {
  const sheet = sheetOf(history);
  // Of two events with one id the first given counts, which a disorder would change.
  const events = inOrder(eventsOf(history));

  test("event by event as they were made", () => {
    const grow = growing(sheet);
    for (let many = 0; many <= events.length; many += 1) {
      const some = events.slice(0, many);
      expect(grow(some)).toEqual(stateOf(sheet, some));
    }
  });

  test.each(SEEDS)("in a disorder of its own, a few at once, some twice (%i)", (seed) => {
    const next = numbers(seed);
    const grow = growing(sheet);
    const come = shuffled([...events, ...events.slice(0, 3)], next);
    for (let many = 1; many < come.length; many += 1 + Math.floor(3 * next())) {
      const some = come.slice(0, many);
      expect(grow(some)).toEqual(stateOf(sheet, some));
    }
    expect(grow(come)).toEqual(stateOf(sheet, events));
  });

  test("back to a shorter log", () => {
    const grow = growing(sheet);
    grow(events);
    const half = events.slice(0, Math.floor(events.length / 2));
    expect(grow(half)).toEqual(stateOf(sheet, half));
  });
});
