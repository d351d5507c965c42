// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

import type { JobSheet } from "../../bench/sheet";

interface Props {
  readonly sheet: JobSheet;
  /** How far the lever is in, 0 to 1; not shown where no lever leads. */
  readonly lever: number | null;
  readonly isOpen: boolean;
  /** The large word: what the hands do. */
  readonly move: string;
  readonly figure: ComponentChildren;
  readonly total: string;
}

const REST_DEG = 24;
const GRIPPED_DEG = 4;
const QUARTER_DEG = 90;

/** The lever, the screw with its spanner, and the count: what the eye follows. */
export function Rhythm({ sheet, lever, isOpen, move, figure, total }: Props): ComponentChild {
  return (
    <section class="rhythm" aria-label="The rhythm">
      <svg class="rhythm-picture" viewBox="0 0 150 150" aria-hidden="true">
        {lever === null ? null : (
          <>
            <rect class="rhythm-grip" x="22" y="4" width="124" height="12" rx="6" />
            <g class="rhythm-lever" style={{ transform: `rotate(${leverDegrees(lever)}deg)` }}>
              <rect class="rhythm-ink" x="6" y="22" width="132" height="12" rx="6" />
            </g>
            <circle class="rhythm-pivot" cx="12" cy="28" r="4" />
          </>
        )}
        <g class="rhythm-screw" style={{ transform: `rotate(${isOpen ? QUARTER_DEG : 0}deg)` }}>
          <path class="rhythm-hex" d="M60 76l19 11v22l-19 11l-19-11v-22z" />
          <rect class="rhythm-ink" x="78" y="93" width="32" height="10" rx="5" />
        </g>
        {isOpen ? (
          <>
            <circle class="rhythm-bore" cx="60" cy="98" r="8" />
            <path class="rhythm-drop" d="M60 92q5 8 0 12q-5-4 0-12z" />
          </>
        ) : (
          <path class="rhythm-bar" d="M52 98h16" />
        )}
        <text class="rhythm-state" x="76" y={isOpen ? 140 : 132}>
          {isOpen ? "open ¼" : "shut"}
        </text>
      </svg>
      <p class="rhythm-move" aria-live="off">
        {move}
      </p>
      <p class="rhythm-count">
        <span class="rhythm-figure">{figure}</span> <span class="rhythm-total">{total}</span>
      </p>
      {lever === null || sheet.control !== "pedal" ? null : <p class="only-heard">The lever stands for the pedal.</p>}
    </section>
  );
}

export function leverDegrees(lever: number): number {
  return Math.round(10 * (REST_DEG + (GRIPPED_DEG - REST_DEG) * lever)) / 10;
}
