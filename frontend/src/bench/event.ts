// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What can be written down at the bench: an append-only log of these. */
export type Posture = "level" | "side stand";
export type GateAnswer = "yes" | "no" | "does not apply" | "overridden";
export type Look = "dark" | "bubbles" | "clear";
export type End = "ready to roll" | "first stop done" | "closed" | "given up";
export type FollowUpAnswer = "firm" | "soft" | "waived";
export type Cycling = "maker's tool" | "workshop" | "on the road";

/** Answers of the guided test of the tube; null is not tried. */
export interface TubeAnswers {
  readonly shut_bubbles_go_on: boolean | null;
  readonly gravity_bubbles: boolean | null;
  readonly after_rest_bubbles: boolean | null;
}

/** What happened, without who wrote it down and when. */
export type Deed =
  | { readonly kind: "started"; readonly posture: Posture }
  | { readonly kind: "gate"; readonly gate: string; readonly answer: GateAnswer; readonly reason: string | null }
  | { readonly kind: "bottle"; readonly fluid: string; readonly batch: string | null; readonly opened_on: string | null }
  | { readonly kind: "drawn_down" }
  | { readonly kind: "topped_up"; readonly to: "max" | "fill line" | number }
  | { readonly kind: "level_read"; readonly above_min_ml: number }
  | { readonly kind: "went_below"; readonly what: "min" | "port" }
  | { readonly kind: "at_screw"; readonly point: number }
  | { readonly kind: "sample"; readonly point: number; readonly ml: number }
  | { readonly kind: "set_done"; readonly point: number; readonly count: number }
  | { readonly kind: "caught"; readonly point: number; readonly ml: number }
  | { readonly kind: "mark"; readonly point: number; readonly look: Look }
  | { readonly kind: "suction"; readonly on: boolean }
  | { readonly kind: "tube_test"; readonly point: number; readonly answers: TubeAnswers }
  | { readonly kind: "shut"; readonly point: number; readonly is_done: boolean; readonly reason: string | null }
  | { readonly kind: "unit_cycled"; readonly how: Cycling }
  | { readonly kind: "paused" }
  | { readonly kind: "resumed" }
  | { readonly kind: "note"; readonly text: string }
  | { readonly kind: "measured"; readonly what: string; readonly value: number; readonly unit: string }
  | { readonly kind: "photo"; readonly name: string }
  | { readonly kind: "undone"; readonly target: string }
  | { readonly kind: "ended"; readonly end: End; readonly reason: string | null }
  | {
      readonly kind: "rechecked";
      readonly follow_up: string;
      readonly answer: FollowUpAnswer;
      readonly reason: string | null;
    }
  | { readonly kind: "signed"; readonly name: string };

interface Stamp {
  /** UUIDv7 in lower case, made on the device. */
  readonly id: string;
  /** ISO 8601 in UTC with milliseconds. */
  readonly at: string;
  readonly who: string;
  readonly device: string;
}

export type BenchEvent = Deed & Stamp;
export type Kind = Deed["kind"];
