// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The histories that Python reads too. */
import { readEvent } from "../../src/bench/read";
import type { BenchEvent } from "../../src/bench/event";
import { jobSheet, type JobSheet } from "../../src/bench/sheet";

export interface History {
  readonly about: string;
  readonly sheet: string;
  readonly events: readonly unknown[];
  readonly state: unknown;
}

export const READINGS = "/reading.json";
export const files = import.meta.glob<unknown>("../../../tests/vectors/bench/*.json", { eager: true, import: "default" });
const sheets = import.meta.glob<unknown>("../../../tests/vectors/bench/sheets/*.json", {
  eager: true,
  import: "default",
});
export const histories = Object.entries(files).flatMap(([path, one]) =>
  path.endsWith(READINGS) ? [] : [[path.replace(/^.*\//, ""), one as History] as const],
);

export function sheetOf(history: History): JobSheet {
  const found = Object.entries(sheets).find(([path]) => path.endsWith(`/${history.sheet}`));
  if (found === undefined) throw new Error(`no sheet ${history.sheet}`);
  return jobSheet(found[1], "");
}

export function eventsOf(history: History): readonly BenchEvent[] {
  return history.events.map((event) => {
    const read = readEvent(event);
    if (!read.ok) throw new Error(JSON.stringify(read.reason));
    return read.value;
  });
}
