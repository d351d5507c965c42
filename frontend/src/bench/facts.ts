// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The facts of a run as the events left them; what follows from them is worked out in told.ts. */
import type { Cycling, End, FollowUpAnswer, Look, Posture } from "./event";
import type { JobSheet } from "./sheet";
import type { GateState, Mark } from "./state";
import type { PotBase } from "./pot";
import type { Verdict } from "./tube";
import type { Cup } from "./unit";

export interface TurnFacts {
  readonly count: number;
  readonly cup: Cup | null;
  readonly sample_ml: number;
  readonly marks: readonly Mark[];
  /** The last colour seen, and the count at which bubbles were last seen. */
  readonly look: Look | null;
  readonly bubbles_at: number | null;
  readonly tube: Verdict | null;
  readonly is_begun: boolean;
  readonly is_shut: boolean;
  readonly is_done: boolean;
  readonly reason: string | null;
}

export interface Facts {
  readonly is_started: boolean;
  readonly is_paused: boolean;
  readonly posture: Posture;
  readonly leader: string | null;
  readonly work: string;
  readonly work_why: string | null;
  readonly gates: Readonly<Record<string, GateState>>;
  readonly point: number | null;
  readonly pot: PotBase | null;
  readonly below: "min" | "port" | null;
  readonly turns: readonly TurnFacts[];
  readonly cycled: readonly Cycling[];
  readonly doubts: readonly { readonly code: string; readonly event: string }[];
  readonly refused: readonly { readonly event: string; readonly why: string }[];
  readonly ended: Readonly<Partial<Record<End, { readonly at: string; readonly who: string }>>>;
  readonly rechecked: Readonly<Record<string, { readonly answer: FollowUpAnswer; readonly reason: string | null }>>;
  readonly notes: readonly unknown[];
  readonly measured: readonly unknown[];
  readonly photos: readonly unknown[];
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

export function nothingYet(sheet: JobSheet): Facts {
  return {
    is_started: false,
    is_paused: false,
    posture: "level",
    leader: null,
    work: sheet.work,
    work_why: null,
    gates: {},
    point: null,
    pot: null,
    below: null,
    turns: sheet.points.map(() => UNTOUCHED),
    cycled: [],
    doubts: [],
    refused: [],
    ended: {},
    rechecked: {},
    notes: [],
    measured: [],
    photos: [],
    signed: null,
  };
}
