// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Evidence } from "../../bench/evidence";
import type { JobSheet } from "../../bench/sheet";
import type { Turn } from "../../bench/state";
import { evidenceWords } from "./words";

const SHAPES: Readonly<Record<Evidence["says"], { readonly path: string; readonly word: string }>> = {
  yes: { path: "M2 9l4 4l8-10", word: "yes" },
  no: { path: "M3 3l10 10M13 3L3 13", word: "no" },
  unknown: { path: "M3 8h10", word: "open" },
};

/** The three things that are looked at together, and whether they agree. */
export function EvidenceRows({ sheet, turn }: { readonly sheet: JobSheet; readonly turn: Turn }): ComponentChild {
  return (
    <>
      <ul class="evidence">
        {turn.evidence.map((one) => {
          const { name, words } = evidenceWords(sheet, turn, one);
          const shape = SHAPES[one.says];
          return (
            <li key={one.id} class={`evidence-${one.says}`}>
              <svg class="evidence-shape" viewBox="0 0 16 16" aria-hidden="true">
                <path d={shape.path} />
              </svg>
              <strong>{shape.word}</strong>
              <span>
                {name}: {words}
              </span>
            </li>
          );
        })}
      </ul>
      {turn.agrees ? null : (
        <p class="disagree" role="status">
          <span class="mark mark-stop" aria-hidden="true" /> They do not agree. Look again in the tube, and go on until they
          do, or say why not.
        </p>
      )}
    </>
  );
}

/** Something says done and something else says not: that is told unasked. */
export function isContested(turn: Turn): boolean {
  const isSaid = turn.evidence.some((one) => one.id !== "bubbles" && one.says === "yes");
  return isSaid && !turn.agrees;
}

/** Done at this screw on all the evidence. */
export function isProven(turn: Turn): boolean {
  return turn.evidence.every((one) => one.says === "yes");
}
