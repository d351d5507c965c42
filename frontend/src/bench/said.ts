// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Words for codes and places that the bench and the record both say. Texts are British. */
import type { Bottle } from "./facts";

/** A bottle as a line: its fluid, batch and day of opening. */
export function bottleWords({ fluid, batch, opened_on }: Omit<Bottle, "event">, day: (iso: string) => string): string {
  const opened = opened_on === null ? "day of opening not told" : `opened on ${day(opened_on)}`;
  return `${fluid}, ${batch === null ? "batch not told" : `batch ${batch}`}, ${opened}`;
}

/** Where marked fluid sat; null where it is only new. */
export function placeWords(named: readonly string[]): string | null {
  if (named.length === 0 || (named.length === 1 && named[0] === "new")) return null;
  return named.map((name) => (name === "lines" ? "the lines" : name === "pot" ? "the reservoir" : `the ${name}`)).join(" or ");
}

const WHY: Readonly<Record<string, string>> = {
  "gates open": "the questions before it were not all answered",
  "not started": "the job had not begun",
  "already started": "the job had begun already",
  "no such screw": "this job has no such screw",
  "no such gate": "this job asks no such question",
  "no reason": "a reason is missing",
  "screws open": "not every screw is shut and done",
  "not ready to roll": "the machine was not ready to roll yet",
  "first stop not done": "the first stop was not done yet",
  "follow-ups open": "the rechecks are not all answered",
  "given up": "the job had been given up",
  ended: "the job had come to an end",
  "screw shut": "that screw is shut",
  "level low": "the reservoir is not topped up",
  "already ended": "that end was reached before",
  "no such follow-up": "this job has no such recheck",
  "below min": "the reservoir fell below MIN",
  "not filled": "counted before the reservoir was filled, so its level is not known",
  "other fluid": "the bottle holds another fluid than the plan says",
  "cup fell": "the cup holds less than at the last look",
  "level below the port": "the reservoir fell below its port, so air may have gone in",
};

/** A code of the fold in words. */
export function whyWords(code: string): string {
  return WHY[code] ?? code;
}
