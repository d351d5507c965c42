// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Every shared history comes to the state that Python comes to. */
import { describe, expect, test } from "vitest";

import { inOrder } from "../../src/bench/order";
import { readEvent } from "../../src/bench/read";
import { stateOf } from "../../src/bench/state";
import { eventsOf, files, histories, READINGS, sheetOf } from "./histories";

interface Reading {
  readonly about: string;
  readonly event: unknown;
  /** The keys that are wrong, in order. */
  readonly wrong: readonly string[];
}

const readings = Object.entries(files).flatMap(([path, all]) => (path.endsWith(READINGS) ? (all as Reading[]) : []));

const WITHIN = 1e-9;

/** Where two documents differ, numbers to one part in a thousand million. */
function differences(found: unknown, kept: unknown, at = ""): readonly string[] {
  if (typeof found === "number" && typeof kept === "number") {
    const isNear = Math.abs(found - kept) <= WITHIN * Math.max(1, Math.abs(found), Math.abs(kept));
    return isNear ? [] : [`${at}: ${found}, kept ${kept}`];
  }
  if (isDocument(found) && isDocument(kept)) {
    const names = [...new Set([...Object.keys(found), ...Object.keys(kept)])];
    return names.flatMap((name) => differences(found[name], kept[name], `${at}.${name}`));
  }
  return found === kept ? [] : [`${at}: ${JSON.stringify(found)}, kept ${JSON.stringify(kept)}`];
}

function isDocument(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}

describe("shared histories", () => {
  test("there are at least sixty", () => {
    expect(histories.length).toBeGreaterThanOrEqual(60);
  });

  test.each(histories)("%s", (_, history) => {
    const events = eventsOf(history);
    const sheet = sheetOf(history);
    expect(differences(stateOf(sheet, events), history.state)).toEqual([]);
    // The order of arrival does not matter, nor does a repeat.
    const once = inOrder(events);
    expect(stateOf(sheet, [...once.toReversed(), ...once])).toEqual(stateOf(sheet, once));
  });
});

describe("an event is read strictly", () => {
  test.each(readings.map((one) => [one.about, one] as const))("%s", (_, { event, wrong }) => {
    const read = readEvent(event);
    expect(read.ok ? [] : read.reason.map((fault) => fault.key)).toEqual(wrong);
  });
});
