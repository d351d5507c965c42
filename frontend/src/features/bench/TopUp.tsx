// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { BenchState } from "../../bench/state";
import { say } from "../../display";
import type { Session } from "./session";
import { MainBar, Tap } from "./MainBar";
import { potDeed } from "./words";

const PLACES = 10;

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly onDone?: () => void;
}

/** The reservoir wants hands: look at the level, then top it up. A look not taken is not written. */
export function TopUp({ session, state, onDone }: Props): ComponentChild {
  const [place, setPlace] = useState<number | null>(null);
  const { sheet } = session;
  const { reservoir } = sheet;
  const usable = reservoir.usable_ml.p50;
  const hasLine = reservoir.fill_to_ml !== null && sheet.direction === "down";
  const call = state.pot.call;
  const full = sheet.direction === "up" ? 0 : "max";
  const write = (to: "max" | "fill line" | 0): void => {
    if (place === null) session.write({ kind: "topped_up", to });
    else session.write({ kind: "level_read", above_min_ml: levelOf(place, usable) }, { kind: "topped_up", to });
    onDone?.();
  };
  return (
    <section class="top-up" aria-label="Top up">
      <p>{say(whyNow(call, sheet.direction))}</p>
      <fieldset class="levels">
        <legend>
          <strong>Look first:</strong> where does the level stand?
        </legend>
        <div class="levels-row">
          {Array.from({ length: PLACES + 1 }, (_, one) => (
            <label class="level" key={one}>
              <input type="radio" name="level" checked={place === one} onChange={() => setPlace(one)} />
              <span class="level-bar" aria-hidden="true">
                <LevelFill share={one / PLACES} />
              </span>
              <span class="level-name">{one === 0 ? "MIN" : one === PLACES ? "MAX" : `${one * 10} %`}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <div class="taps">
        <Tap onPress={() => void session.write({ kind: "went_below", what: "min" })}>It is below MIN</Tap>
        <Tap onPress={() => void session.write({ kind: "went_below", what: "port" })}>The port shows</Tap>
        {hasLine ? <Tap onPress={() => write("fill line")}>Filled to the line only</Tap> : null}
      </div>
      <MainBar
        kind="stop"
        title={potDeed(sheet).done}
        words={place === null ? "or a press on the pedal" : `it stood at ${place * 10} % · or a press on the pedal`}
        onPress={() => write(full)}
      />
    </section>
  );
}

export function levelOf(place: number, usable: number): number {
  return Math.round((10 * usable * place) / PLACES) / 10;
}

function LevelFill({ share }: { share: number }): ComponentChild {
  return (
    <svg viewBox="0 0 20 40" class="level-glass">
      <rect class="pot-sure" x="2" y={2 + 36 * (1 - share)} width="16" height={36 * share} />
      <rect class="pot-wall" x="1.5" y="1.5" width="17" height="37" />
    </svg>
  );
}

function whyNow(call: string, direction: "down" | "up"): string {
  if (call === "port") {
    return "The level fell below the port, so air may have gone in: from now on this is a bleed. Screw shut, fill it, and go on until no bubbles come.";
  }
  if (call === "below min") return "The level fell below MIN. Screw shut, and fill it before anything moves.";
  if (direction === "up") return "Screw shut. The reservoir may run over with the next set: draw it off.";
  return "Screw shut. The next set may bring the reservoir below MIN.";
}
