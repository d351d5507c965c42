// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The rhythm of one stroke: what the hands do, for how long, and where the lever and the screw are. */

export type Move = "pull" | "open" | "follow" | "close" | "release" | "wait" | "run";

export interface Beat {
  readonly move: Move;
  /** Two or three words, said aloud too. */
  readonly words: string;
  readonly seconds: number;
  /** How far the lever is in at the start and the end, 0 to 1. */
  readonly lever: readonly [number, number];
  /** Whether the screw stands open. */
  readonly isOpen: boolean;
}

type Part = Omit<Beat, "seconds"> & { readonly part: number };

const OPENED_EACH_STROKE: readonly Part[] = [
  { move: "pull", words: "pull", part: 0.2, lever: [0, 0.45], isOpen: false },
  { move: "open", words: "open", part: 0.1, lever: [0.45, 0.5], isOpen: true },
  { move: "follow", words: "follow", part: 0.25, lever: [0.5, 1], isOpen: true },
  { move: "close", words: "close", part: 0.12, lever: [1, 1], isOpen: false },
  { move: "release", words: "let back", part: 0.2, lever: [1, 0], isOpen: false },
  { move: "wait", words: "wait", part: 0.13, lever: [0, 0], isOpen: false },
];
const LEFT_RUNNING: readonly Part[] = [
  { move: "pull", words: "pull", part: 0.16, lever: [0, 0.5], isOpen: false },
  { move: "open", words: "open", part: 0.08, lever: [0.5, 0.55], isOpen: true },
  { move: "run", words: "let it run", part: 0.32, lever: [0.55, 1], isOpen: true },
  { move: "close", words: "close", part: 0.1, lever: [1, 1], isOpen: false },
  { move: "release", words: "let back", part: 0.16, lever: [1, 0], isOpen: false },
  { move: "wait", words: "wait", part: 0.18, lever: [0, 0], isOpen: false },
];
const STAYS_OPEN: readonly Part[] = [
  { move: "pull", words: "pull", part: 0.4, lever: [0, 1], isOpen: true },
  { move: "release", words: "let back", part: 0.4, lever: [1, 0], isOpen: true },
  { move: "wait", words: "wait", part: 0.2, lever: [0, 0], isOpen: true },
];
const BY_TECHNIQUE: Readonly<Record<string, readonly Part[]>> = {
  "close before release": OPENED_EACH_STROKE,
  "half turn and wait": LEFT_RUNNING,
  "one-way tube": STAYS_OPEN,
  "open tube under fluid": STAYS_OPEN,
};

/** The beats of one stroke that lasts so many seconds. */
export function beatsOf(technique: string, seconds: number): readonly Beat[] {
  const parts = BY_TECHNIQUE[technique] ?? OPENED_EACH_STROKE;
  return parts.map(({ part, ...beat }) => ({ ...beat, seconds: part * seconds }));
}

/** Whether the screw stays open over a whole set. */
export function staysOpen(technique: string): boolean {
  return BY_TECHNIQUE[technique] === STAYS_OPEN;
}

export interface Moment {
  /** Strokes done. */
  readonly done: number;
  readonly beat: Beat;
  readonly place: number;
  /** How far the lever is in, 0 to 1. */
  readonly lever: number;
}

/** Where the rhythm is after so many seconds. */
export function momentAt(beats: readonly Beat[], elapsed: number): Moment {
  const whole = beats.reduce((sum, beat) => sum + beat.seconds, 0);
  const done = Math.floor(elapsed / whole);
  let rest = elapsed - done * whole;
  for (const [place, beat] of beats.entries()) {
    if (rest < beat.seconds) {
      const [from, to] = beat.lever;
      return { done, beat, place, lever: from + (to - from) * (rest / beat.seconds) };
    }
    rest -= beat.seconds;
  }
  const first = beats[0];
  if (first === undefined) throw new Error("a rhythm without beats");
  return { done: done + 1, beat: first, place: 0, lever: first.lever[0] };
}
