// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The facts of a run as its events left them, before anything is reckoned from them. */
import type { Cycling, End, FollowUpAnswer, GateAnswer, Look, Posture } from "./event";
import type { Noticed } from "./marks";
import { UNFILLED, type Below, type PotFacts } from "./pot";
import type { Cup } from "./readings";
import type { JobSheet } from "./sheet";
import type { Verdict } from "./tube";

/** One screw so far; `bubbles_at` is the count at which bubbles were last seen. */
export interface TurnFacts {
  readonly count: number;
  readonly cup: Cup | null;
  readonly sample_ml: number;
  readonly marks: readonly Noticed[];
  readonly look: Look | null;
  readonly bubbles_at: number | null;
  readonly tube: Verdict | null;
  readonly is_begun: boolean;
  readonly is_shut: boolean;
  readonly is_done: boolean;
  readonly reason: string | null;
}

export interface GateState {
  readonly answer: GateAnswer;
  readonly reason: string | null;
  readonly who: string;
  readonly at: string;
}

/** Something that makes a number here less sure, and the event that did. */
export interface Doubt {
  readonly code: string;
  readonly event: string;
}

/** An event out of place, which changed nothing, and why. */
export interface Refusal {
  readonly event: string;
  readonly why: string;
}

export interface Note {
  readonly event: string;
  readonly text: string;
}

export interface Measurement {
  readonly event: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
}

export interface Photo {
  readonly event: string;
  readonly name: string;
}

/** A bottle the new fluid came from. */
export interface Bottle {
  readonly event: string;
  readonly fluid: string;
  readonly batch: string | null;
  readonly opened_on: string | null;
}

export interface Facts {
  readonly work: string;
  readonly turns: readonly TurnFacts[];
  readonly is_started: boolean;
  readonly is_paused: boolean;
  readonly posture: Posture;
  readonly leader: string | null;
  readonly work_why: string | null;
  readonly gates: Readonly<Record<string, GateState>>;
  readonly point: number | null;
  readonly suction: boolean;
  readonly pot: PotFacts;
  /** The line the level fell below, until it is topped up. */
  readonly below: Below;
  readonly bottles: readonly Bottle[];
  readonly cycled: readonly Cycling[];
  readonly doubts: readonly Doubt[];
  readonly refused: readonly Refusal[];
  readonly ended: Readonly<Partial<Record<End, { readonly at: string; readonly who: string }>>>;
  readonly rechecks: Readonly<Record<string, { readonly answer: FollowUpAnswer; readonly reason: string | null }>>;
  readonly notes: readonly Note[];
  readonly measured: readonly Measurement[];
  readonly photos: readonly Photo[];
  readonly signed: { readonly name: string; readonly at: string } | null;
}

const UNTOUCHED: TurnFacts = {
  count: 0,
  cup: null,
  sample_ml: 0,
  marks: [],
  look: null,
  bubbles_at: null,
  tube: null,
  is_begun: false,
  is_shut: false,
  is_done: false,
  reason: null,
};

/** The facts before the first event. */
export function nothingYet(sheet: JobSheet): Facts {
  return {
    work: sheet.work,
    turns: sheet.points.map(() => UNTOUCHED),
    is_started: false,
    is_paused: false,
    posture: "level",
    leader: null,
    work_why: null,
    gates: {},
    point: null,
    suction: false,
    pot: UNFILLED,
    below: null,
    bottles: [],
    cycled: [],
    doubts: [],
    refused: [],
    ended: {},
    rechecks: {},
    notes: [],
    measured: [],
    photos: [],
    signed: null,
  };
}
