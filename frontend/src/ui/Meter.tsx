// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

interface Props {
  readonly of: number;
  readonly known: number;
  /** What is counted: "sizes". */
  readonly things: string;
}

const FULL = 20;

/** How much of something is known: the words, and a sight glass filled so far. */
export function Meter({ of, known, things }: Props): ComponentChild {
  const level = of === 0 ? 0 : (known / of) * FULL;
  return (
    <span class="meter">
      <svg class="meter-glass" viewBox="0 0 16 24" aria-hidden="true">
        <rect class="meter-level" x="2" y={2 + FULL - level} width="12" height={level} />
        <path class="meter-wall" d="M1 1v22h14V1" />
      </svg>
      <span>
        {known === 0 ? "none" : known} of {of} {things} known
      </span>
    </span>
  );
}
