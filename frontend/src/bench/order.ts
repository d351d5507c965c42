// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The order of a log, its repeats, and what was taken back. */
import type { BenchEvent } from "./event";

/** Every event once, by id; of two with one id the first given counts. */
export function inOrder(events: Iterable<BenchEvent>): readonly BenchEvent[] {
  const kept = new Map<string, BenchEvent>();
  for (const event of events) if (!kept.has(event.id)) kept.set(event.id, event);
  return [...kept.values()].sort((one, other) => (one.id < other.id ? -1 : 1));
}

/** The ids of events that an undo reaches and that was not taken back itself. */
export function takenBack(ordered: readonly BenchEvent[]): ReadonlySet<string> {
  const gone = new Set<string>();
  for (const event of ordered.toReversed()) {
    if (event.kind === "undone" && !gone.has(event.id) && event.target < event.id) gone.add(event.target);
  }
  return gone;
}

/** What counts: all but the undos and what they took back. */
export function effective(ordered: readonly BenchEvent[]): readonly BenchEvent[] {
  const gone = takenBack(ordered);
  return ordered.filter((event) => event.kind !== "undone" && !gone.has(event.id));
}
