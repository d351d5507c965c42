// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

interface Props {
  readonly of: number;
  readonly known: number;
  /** What is counted: "sizes". */
  readonly things: string;
}

const BOXES = 10;

/** How much of something is known: the words, and a row of boxes filled so far. */
export function Meter({ of, known, things }: Props): ComponentChild {
  const share = of === 0 ? 0 : known / of;
  // Rounded down, so that the last box fills only when nothing is left to find out.
  const filled = Math.floor(share * BOXES + 1e-9);
  return (
    <span class="meter">
      <span>
        {known === 0 ? "none" : known} of {of} {things} known
      </span>
      <svg class="meter-row" viewBox="0 0 99 9" aria-hidden="true">
        {Array.from({ length: BOXES }, (_, box) => (
          <rect key={box} class={box < filled ? "meter-full" : "meter-open"} x={box * 10 + 0.5} y="0.5" width="7" height="8" />
        ))}
      </svg>
    </span>
  );
}
