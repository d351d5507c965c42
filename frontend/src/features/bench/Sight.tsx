// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { idClock } from "../../bench/ids";
import type { BenchEvent } from "../../bench/event";
import { stateOf, type BenchState } from "../../bench/state";
import { LiveStrip } from "./LiveStrip";
import { PotGlass } from "./PotGlass";
import { Rhythm } from "./Rhythm";
import type { Session } from "./session";
import { outWords, totalWords } from "./words";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly move: string;
  readonly lever: number | null;
  readonly isOpen: boolean;
}

/** Pot, rhythm and strip side by side: what the eye goes over at every stroke. */
export function Sight({ session, state, move, lever, isOpen }: Props): ComponentChild {
  const place = state.point ?? 0;
  const [turn, point] = [state.turns[place], session.sheet.points[place]];
  if (turn === undefined || point === undefined) return null;
  return (
    <div class="sight">
      <PotGlass sheet={session.sheet} pot={state.pot} />
      <Rhythm
        sheet={session.sheet}
        lever={lever}
        isOpen={isOpen}
        move={move}
        figure={turn.count}
        total={totalWords(session.sheet, turn)}
      />
      <LiveStrip point={point} turn={turn} />
      <p class="sight-words">{outWords(turn)}</p>
    </div>
  );
}

/** The state as it will be when the strokes of the running set are written down. */
export function stateWith(session: Session, point: number, count: number): BenchState {
  if (count === 0) return session.state.value;
  const last = session.events.value.at(-1)?.id;
  const clock = idClock();
  if (last !== undefined) clock.saw(last);
  const stroke: BenchEvent = {
    kind: "set_done",
    point,
    count,
    id: clock.next(),
    at: new Date().toISOString(),
    ...session.hand,
  };
  return stateOf(session.sheet, [...session.events.value, stroke]);
}
