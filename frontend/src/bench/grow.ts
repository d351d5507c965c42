// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The same fold, going on from what is folded already. */
import type { BenchEvent } from "./event";
import { nothingYet, type Facts } from "./facts";
import { apply } from "./fold";
import { effective, inOrder } from "./order";
import type { JobSheet } from "./sheet";
import { stateDocument, type BenchState } from "./state";

/**
 * A `stateOf` for one sheet that remembers the facts after each event that counted.
 *
 * What counts is compared one by one with what counted last time; only from the first
 * difference on is it folded anew, be it a tap more, an undo or an event that came late.
 */
export function growing(sheet: JobSheet): (events: readonly BenchEvent[]) => BenchState {
  let counted: readonly BenchEvent[] = [];
  let after: readonly Facts[] = [];
  return (events) => {
    const now = effective(inOrder(events));
    const first = now.findIndex((event, place) => event !== counted[place]);
    const same = first < 0 ? now.length : first;
    const facts = after.slice(0, same);
    let last = facts.at(-1) ?? nothingYet(sheet);
    for (const event of now.slice(same)) {
      last = apply(sheet, last, event);
      facts.push(last);
    }
    [counted, after] = [now, facts];
    return stateDocument(sheet, last);
  };
}
