// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Every shared history comes to the state that Python comes to. */
import { describe, expect, test } from "vitest";

import { inOrder } from "../../src/bench/order";
import { readEvent } from "../../src/bench/read";
import { jobSheet, type JobSheet } from "../../src/bench/sheet";
import { stateOf } from "../../src/bench/state";

interface History {
  readonly about: string;
  readonly sheet: string;
  readonly events: readonly unknown[];
  readonly state: unknown;
}

interface Reading {
  readonly about: string;
  readonly event: unknown;
  /** The keys that are wrong, in order. */
  readonly wrong: readonly string[];
}

const files = import.meta.glob<unknown>("../../../tests/vectors/bench/*.json", { eager: true, import: "default" });
const READINGS = "/reading.json";
const histories = Object.entries(files).flatMap(([path, one]) =>
  path.endsWith(READINGS) ? [] : [[path.replace(/^.*\//, ""), one as History] as const],
);
const readings = Object.entries(files).flatMap(([path, all]) => (path.endsWith(READINGS) ? (all as Reading[]) : []));
const sheets = import.meta.glob<unknown>("../../../tests/vectors/bench/sheets/*.json", {
  eager: true,
  import: "default",
});

const WITHIN = 1e-9;

function sheetOf(history: History): JobSheet {
  const found = Object.entries(sheets).find(([path]) => path.endsWith(`/${history.sheet}`));
  if (found === undefined) throw new Error(`no sheet ${history.sheet}`);
  return jobSheet(found[1], "");
}

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

function eventsOf(history: History) {
  return history.events.map((event) => {
    const read = readEvent(event);
    if (!read.ok) throw new Error(JSON.stringify(read.reason));
    return read.value;
  });
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
