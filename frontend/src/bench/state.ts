// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the log and the sheet come to; the same document in Python and here. */
import type { Cycling, End, FollowUpAnswer, GateAnswer, Look, Posture } from "./event";
import type { Band } from "./sheet";

export type Phase = "before opening" | "working" | "before rolling" | End;
export type Call = "not filled" | "fine" | "soon" | "now" | "below min" | "port";

export interface Share {
  readonly name: string;
  readonly share: number;
}

export interface Mark {
  readonly event: string;
  readonly look: Look;
  readonly at_ml: Band;
  readonly origins: readonly Share[];
  readonly named: readonly string[];
  readonly disagrees: "dark though new" | "clear though old" | null;
}

export interface Evidence {
  readonly id: "share" | "look" | "bubbles";
  readonly says: "yes" | "no" | "unknown";
}

export interface Turn {
  readonly count: number;
  readonly out_ml: Band;
  readonly new_share: Band;
  readonly total_count: Band;
  readonly cup_ml: number | null;
  readonly cup_at: number | null;
  readonly sample_ml: number;
  readonly marks: readonly Mark[];
  readonly tube: string | null;
  readonly evidence: readonly Evidence[];
  readonly agrees: boolean;
  readonly is_begun: boolean;
  readonly is_shut: boolean;
  readonly is_done: boolean;
  readonly reason: string | null;
}

export interface Pot {
  readonly above_min_ml: Band;
  readonly left_ml: number;
  readonly counts_left: number;
  readonly call: Call;
}

export interface GateState {
  readonly answer: GateAnswer;
  readonly reason: string | null;
  readonly who: string;
  readonly at: string;
}

export interface FollowUpState {
  readonly id: string;
  readonly due_at: string | null;
  readonly answer: FollowUpAnswer | null;
  readonly reason: string | null;
}

export interface BenchState {
  readonly phase: Phase;
  readonly is_paused: boolean;
  readonly posture: Posture;
  readonly leader: string | null;
  readonly work: string;
  readonly work_why: string | null;
  readonly gates: Readonly<Record<string, GateState>>;
  readonly gates_open: readonly string[];
  readonly point: number | null;
  readonly unit_ml: { readonly mean: number; readonly sd: number };
  readonly guard_unit_ml: number;
  readonly pot: Pot;
  readonly turns: readonly Turn[];
  readonly cycled: readonly Cycling[];
  readonly doubts: readonly { readonly code: string; readonly event: string }[];
  readonly refused: readonly { readonly event: string; readonly why: string }[];
  readonly ended: Readonly<Record<string, { readonly at: string; readonly who: string }>>;
  readonly follow_ups: readonly FollowUpState[];
  readonly notes: readonly unknown[];
  readonly measured: readonly unknown[];
  readonly photos: readonly unknown[];
  readonly signed: { readonly name: string; readonly at: string } | null;
  readonly open: readonly string[];
}
