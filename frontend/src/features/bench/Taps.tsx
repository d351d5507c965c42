// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { BenchEvent } from "../../bench/event";
import { effective } from "../../bench/order";
import { say } from "../../display";
import { timeWords } from "../../lib/dates";
import { Unfold } from "../../ui/Unfold";
import type { Session } from "./session";
import { givenNames, tapWords } from "./words";

const LISTED = 12;

/** The last taps, each of which can be taken back; the latest is always in reach. */
export function Taps({ session }: { readonly session: Session }): ComponentChild {
  const [isOpen, setOpen] = useState(false);
  const { sheet } = session;
  const keep = givenNames(sheet);
  const taps = undoable(session.events.value).toReversed();
  const back = lastUndo(session.events.value);
  return (
    <Unfold summary={`Last taps (${taps.length})`} open={isOpen} onToggle={setOpen}>
      {isOpen ? (
        <ol class="tap-list">
          {back ? (
            <li>
              <span>
                taken back: <strong>{say(tapWords(sheet, back.target), keep)}</strong>
              </span>
              <button type="button" class="tap tap-undo" onClick={() => session.undo(back.undo.id)}>
                Put it back
              </button>
            </li>
          ) : null}
          {taps.slice(0, LISTED).map((event) => (
            <li key={event.id}>
              <span>
                {timeWords(event.at)} <strong>{say(tapWords(sheet, event), keep)}</strong>{" "}
                <span class="soft">
                  {event.who}, {event.device}
                </span>
              </span>
              <button type="button" class="tap tap-undo" onClick={() => session.undo(event.id)}>
                Undo<span class="only-heard"> {tapWords(sheet, event)}</span>
              </button>
            </li>
          ))}
        </ol>
      ) : null}
    </Unfold>
  );
}

/** The start of the job is not taken back: it is given up instead. */
export function undoable(events: readonly BenchEvent[]): readonly BenchEvent[] {
  return effective(events).filter((event) => event.kind !== "started");
}

/** The latest undo, where nothing was done since. */
function lastUndo(events: readonly BenchEvent[]): { readonly undo: BenchEvent; readonly target: BenchEvent } | null {
  const undo = events.at(-1);
  if (undo?.kind !== "undone") return null;
  const target = events.find((event) => event.id === undo.target);
  return target === undefined || target.kind === "undone" ? null : { undo, target };
}
