// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useComputed } from "@preact/signals";
import type { ComponentChild } from "preact";

import { idClock } from "../../bench/ids";
import type { BenchEvent } from "../../bench/event";
import type { BenchState } from "../../bench/state";
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
  // The count on its own, so that a tap shows in it before the rest is drawn anew.
  const count = useComputed(() => {
    const now = session.state.value;
    return now.turns[now.point ?? 0]?.count ?? 0;
  });
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
        figure={state === session.state.peek() ? count : turn.count}
        total={totalWords(session.sheet, turn)}
      />
      <LiveStrip point={point} turn={turn} />
      <p class="sight-words">{outWords(session.sheet, turn)}</p>
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
  return session.stateWith([...session.events.value, stroke]);
}
