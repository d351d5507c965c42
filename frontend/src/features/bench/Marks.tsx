// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Look } from "../../bench/event";
import { effective } from "../../bench/order";
import type { Session } from "./session";
import { markWords } from "./words";

const LOOKS: readonly { readonly look: Look; readonly words: string }[] = [
  { look: "dark", words: "dark here" },
  { look: "bubbles", words: "bubbles here" },
  { look: "clear", words: "clear as new" },
];

/** What is seen in the tube now; three targets, each with its own shape. */
export function Marks({ onMark }: { readonly onMark: (look: Look) => void }): ComponentChild {
  return (
    <div class="marks" role="group" aria-label="What you see in the tube">
      {LOOKS.map(({ look, words }) => (
        <button key={look} type="button" class="tap" onClick={() => onMark(look)}>
          <LookShape look={look} />
          {words}
        </button>
      ))}
    </div>
  );
}

/** Where the fluid sat that was marked last; it stays until something else is tapped. */
export function LatestMark({ session, point }: { session: Session; point: number }): ComponentChild {
  const last = effective(session.events.value).at(-1);
  const mark = session.state.value.turns[point]?.marks.find((one) => one.event === last?.id);
  if (mark === undefined) return null;
  return (
    <p class="mark-words" role="status">
      {markWords(session.sheet, mark, session.sheet.points[point]?.at ?? "screw")}
    </p>
  );
}

export function LookShape({ look }: { look: Look }): ComponentChild {
  return (
    <svg class="look" viewBox="0 0 16 16" aria-hidden="true">
      {look === "dark" ? <circle class="look-dark" cx="8" cy="8" r="6" /> : null}
      {look === "clear" ? <circle class="look-clear" cx="8" cy="8" r="6" /> : null}
      {look === "bubbles" ? (
        <g class="look-bubbles">
          <circle cx="5" cy="10" r="3" />
          <circle cx="11.5" cy="6" r="2.5" />
          <circle cx="11" cy="12.5" r="1.5" />
        </g>
      ) : null}
    </svg>
  );
}
