// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { JobSheet } from "../../bench/sheet";
import type { BenchState } from "../../bench/state";
import { MainBar, Tap } from "./MainBar";
import type { Session } from "./session";
import { potDeed } from "./words";

/** A look is good to a tenth of the way between the lines. */
const STEP = 10;
const FULL = 100;

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly onDone?: () => void;
}

/** The reservoir wants hands: look at the level, then top it up. A look not taken is not written. */
export function TopUp({ session, state, onDone }: Props): ComponentChild {
  const { sheet } = session;
  const [percent, setPercent] = useState(() => expectedPercent(sheet, state));
  const [isSeen, setSeen] = useState(false);
  const usable = sheet.reservoir.usable_ml.p50;
  const isUp = sheet.direction === "up";
  const write = (to: "max" | "fill line" | 0 | null): void => {
    const look = { kind: "level_read", above_min_ml: levelOf(percent, usable) } as const;
    const fill = to === null ? [] : [{ kind: "topped_up", to } as const];
    session.write(...(isSeen ? [look] : []), ...fill);
    onDone?.();
  };
  const by = (step: number): void => {
    setPercent(Math.min(FULL, Math.max(0, percent + step)));
    setSeen(true);
  };
  return (
    <>
      <div class="floor">
        <p class="top-up-words">{whyNow(state.pot.call, sheet.direction)} Where does the level stand?</p>
        <div class="level-row" role="group" aria-label="Level between MIN and MAX">
          <button type="button" class="step" aria-label="a tenth lower" onClick={() => by(-STEP)}>
            −
          </button>
          <button type="button" class="tap" aria-pressed={isSeen} aria-label={`The level stands ${levelWords(percent)}`} onClick={() => setSeen(!isSeen)}>
            {levelWords(percent)}
            {isSeen ? "" : "?"}
          </button>
          <button type="button" class="step" aria-label="a tenth higher" onClick={() => by(STEP)}>
            +
          </button>
        </div>
        <MainBar
          kind="stop"
          title={potDeed(sheet).done}
          words={isSeen ? `it stood at ${levelWords(percent)}` : "or a press on the pedal"}
          onPress={() => write(isUp ? 0 : "max")}
        />
      </div>
      <div class="taps">
        {isSeen ? <Tap onPress={() => write(null)}>Only looked, not touched</Tap> : null}
        {sheet.reservoir.fill_to_ml !== null && !isUp ? (
          <Tap onPress={() => write("fill line")}>Filled to the line only</Tap>
        ) : null}
        <Tap onPress={() => void session.write({ kind: "went_below", what: "min" })}>It is below MIN</Tap>
        <Tap onPress={() => void session.write({ kind: "went_below", what: "port" })}>The port shows</Tap>
      </div>
    </>
  );
}

/** What the level should be by the figures, to the nearest tenth. */
function expectedPercent(sheet: JobSheet, { pot }: BenchState): number {
  const share = (pot.above_min_ml?.p50 ?? 0) / sheet.reservoir.usable_ml.p50;
  return Math.min(FULL, Math.max(0, STEP * Math.round((FULL * share) / STEP)));
}

export function levelOf(percent: number, usable: number): number {
  return Math.round((10 * usable * percent) / FULL) / 10;
}

function levelWords(percent: number): string {
  if (percent === 0) return "at MIN";
  return percent === FULL ? "at MAX" : `${percent} % up`;
}

function whyNow(call: string, direction: "down" | "up"): string {
  if (call === "port") return "Below the port: air may have gone in, so this is a bleed now. Screw shut, and fill it.";
  if (call === "below min") return "Below MIN. Screw shut, and fill it before anything moves.";
  if (call !== "now") return "";
  return direction === "up" ? "Screw shut: the next set may run over." : "Screw shut: the next set may go below MIN.";
}
