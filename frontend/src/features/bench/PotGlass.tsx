// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { JobSheet } from "../../bench/sheet";
import type { Pot } from "../../bench/state";
import { shown, unit } from "../../display";
import { plain } from "../../lib/figures";
import { counts, potDeed } from "./words";

const WIDTH = 76;
const HEIGHT = 186;
const WALL = { x: 10, y: 6, width: 56, height: 176 };
const MAX_Y = 26;
const MIN_Y = 146;

interface Props {
  readonly sheet: JobSheet;
  readonly pot: Pot;
}

/** The reservoir as a sight glass: what is surely in it is full, what may be in it is hatched. */
export function PotGlass({ sheet, pot }: Props): ComponentChild {
  const isWarning = isAlarm(pot);
  const usable = sheet.reservoir.usable_ml.p50;
  const y = (ml: number): number => {
    const part = Math.min(1.1, Math.max(-0.25, usable > 0 ? ml / usable : 0));
    return MIN_Y - part * (MIN_Y - MAX_Y);
  };
  const bottom = WALL.y + WALL.height - 3;
  const level = pot.above_min_ml;
  const sure = level === null ? bottom : y(level.p05);
  const perhaps = level === null ? bottom : y(level.p95);
  return (
    <section class={isWarning ? "pot pot-now" : pot.call === "soon" || pot.call === "watch" ? "pot pot-soon" : "pot"} aria-label="Reservoir">
      <p class="pot-words">
        {isWarning ? <span class="mark mark-stop" aria-hidden="true" /> : null} {potWords(sheet, pot)}
      </p>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} class="pot-glass" aria-hidden="true">
        <defs>
          <pattern id="pot-perhaps" width="6" height="6" patternUnits="userSpaceOnUse">
            <path class="pot-hatch" d="M0 6L6 0" />
          </pattern>
        </defs>
        <rect class="pot-sure" x={WALL.x} y={sure} width={WALL.width} height={Math.max(0, bottom - sure)} />
        <rect
          fill="url(#pot-perhaps)"
          x={WALL.x}
          y={perhaps}
          width={WALL.width}
          height={Math.max(0, sure - perhaps)}
        />
        <rect class="pot-wall" x={WALL.x} y={WALL.y} width={WALL.width} height={WALL.height} />
        <path class="pot-line" d={`M2 ${MAX_Y}h${WIDTH - 4}`} />
        <path class="pot-line pot-min" d={`M2 ${MIN_Y}h${WIDTH - 4}`} />
        <text class="pot-name" x={WIDTH / 2} y={MAX_Y - 6}>
          MAX
        </text>
        <text class="pot-name pot-name-min" x={WIDTH / 2} y={MIN_Y + 16}>
          MIN
        </text>
      </svg>
      <p class="pot-ml">{pot.call === "not filled" ? "not filled yet" : leftWords(pot)}</p>
    </section>
  );
}

/** Whether the reservoir needs hands now. */
export function isAlarm(pot: Pot): boolean {
  return pot.call === "now" || pot.call === "below min" || pot.call === "port";
}

function potWords(sheet: JobSheet, pot: Pot): ComponentChild {
  const deed = potDeed(sheet);
  switch (pot.call) {
    case "not filled":
      return "reservoir";
    case "below min":
      return <strong>below MIN</strong>;
    case "port":
      return <strong>below the port</strong>;
    case "watch":
      return <strong>watch the level</strong>;
    case "now":
      return <strong>{deed.now}</strong>;
    case "soon":
    case "fine":
      return (
        <>
          {deed.in} <strong class="pot-count">{counts(sheet, pot.counts_left)}</strong>
        </>
      );
  }
}

function leftWords(pot: Pot): string {
  return `at least ${plain(Math.floor(shown(pot.left_ml, "ml")))} ${unit("ml")}`;
}
