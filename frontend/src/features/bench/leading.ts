// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Leading a set: the rhythm runs, each beat is cued, and the count goes on until the set is full. */
import { useEffect, useRef, useState } from "preact/hooks";

import { forget, recall, remember } from "../../lib/storage";
import { orNull, record, text, whole } from "../../lib/validate";
import { momentAt, type Beat } from "./beat";
import { cue, setEnds } from "./sound";

export interface RunningSet {
  readonly job: string;
  readonly point: number;
  readonly size: number;
  readonly done: number;
  /** Strokes of it that are written down already, because something was marked. */
  readonly logged: number;
  /** Whether the first millilitres go into a cup of their own. */
  readonly isSample: boolean;
}

const check = orNull(record({ job: text, point: whole, size: whole, done: whole, logged: whole, isSample: (value) => value === true }));
const NAME = "bench set";

/** A set that a reload interrupted; it is asked about, never lost. */
export function interruptedSet(job: string): RunningSet | null {
  const kept = recall(NAME, check, null);
  return kept?.job === job ? kept : null;
}

export function keepSet(set: RunningSet | null): void {
  if (set === null) forget(NAME);
  else remember(NAME, set);
}

export interface Led {
  readonly done: number;
  readonly beat: Beat | null;
}

const TICK_MS = 40;

interface Leading {
  /** Null for work that runs by the second. */
  readonly beats: readonly Beat[] | null;
  readonly size: number;
  readonly isSwinging: boolean;
  readonly onLever: (lever: number) => void;
  readonly onDone: (done: number) => void;
}

/** What is done by now; it starts at once and ends by `onDone` with the whole set. */
export function useLeading({ beats, size, isSwinging, onLever, onDone }: Leading): Led {
  const [led, setLed] = useState<Led>({ done: 0, beat: beats?.[0] ?? null });
  const latest = useRef({ onDone, onLever, isSwinging });
  latest.current = { onDone, onLever, isSwinging };
  useEffect(() => {
    const start = performance.now();
    let [count, place] = [0, -1];
    const tick = (): void => {
      const elapsed = (performance.now() - start) / 1000;
      const moment = beats === null ? null : momentAt(beats, elapsed);
      // Strokes end with the set; seconds run on until the screw is shut.
      const done = moment === null ? Math.floor(elapsed) : Math.min(size, moment.done);
      if (moment !== null && latest.current.isSwinging) latest.current.onLever(moment.lever);
      if (done !== count || (moment !== null && moment.place !== place)) {
        if (moment === null && done >= size && count < size) setEnds();
        if (moment !== null && done >= size) {
          clearInterval(timer);
          setEnds();
          latest.current.onDone(size);
          return;
        }
        count = done;
        if (moment !== null) {
          ({ place } = moment);
          cue(moment.beat.move, moment.beat.words);
        }
        setLed({ done, beat: moment?.beat ?? null });
      }
    };
    const timer = setInterval(tick, TICK_MS);
    tick();
    return () => clearInterval(timer);
  }, []);
  return led;
}
