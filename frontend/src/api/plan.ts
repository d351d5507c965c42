// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The document of a plan, as every face of firmlever gives it. */
import { listOf, mapOf, number, oneOf, orElse, orNull, record, text, whole, yesNo, type Of } from "../lib/validate";
import { band, countBand, method, work } from "./shapes";

const strip = record({ slice_ml: number, origins: listOf(text), shares: listOf(listOf(number)) });
export type Strip = Of<typeof strip>;

const washout = record({ volume_ml: listOf(number), new_share: listOf(band) });
export type Washout = Of<typeof washout>;

const planPoint = record({
  at: text,
  volume_ml: band,
  strokes: orNull(countBand),
  topups: countBand,
  minutes: band,
  posture: orNull(text),
  part: text,
  note: orNull(text),
  hex_mm: orNull(number),
  strip,
  washout,
});
export type PlanPoint = Of<typeof planPoint>;

const leftOld = record({ whole: band, after_mixing: band, parts: mapOf(band), parts_ml: mapOf(band) });
export type LeftOld = Of<typeof leftOld>;

const reservoir = record({
  usable_ml: band,
  strokes_to_min: orNull(countBand),
  fill_to_ml: band,
  ml_to_min: band,
  on_side_stand_ml: band,
});

export const assumed = record({
  name: text,
  low: number,
  high: number,
  basis: text,
  unit: text,
  words: text,
  source: text,
  also: listOf(text),
});
export type Assumed = Of<typeof assumed>;

export const narrow = record({ name: text, per_cent: number, words: text, measure: text, also: listOf(text) });
export type Narrow = Of<typeof narrow>;

const pistonsHome = record({ at: text, saves_ml: band, left_old_less: band, done: yesNo, how: text });
export type PistonsHome = Of<typeof pistonsHome>;

const methodTime = record({ method, technique: text, minutes: band, allowed: yesNo, reason: text });
export type MethodTime = Of<typeof methodTime>;

const fillStep = record({
  id: text,
  at: text,
  words: text,
  see: text,
  stop: text,
  volume_ml: band,
  strokes: orNull(countBand),
});
export type FillStep = Of<typeof fillStep>;

const reverseFill = record({ at: text, volume_ml: band, draw_off_after_ml: number, allowed: yesNo, reason: text });
export type ReverseFill = Of<typeof reverseFill>;

const fill = record({
  volume_ml: band,
  steps: listOf(fillStep),
  reverse: listOf(reverseFill),
  prime: listOf(text),
});
export type Fill = Of<typeof fill>;

export const flushPlan = record({
  format: oneOf(1),
  kind: oneOf("plan"),
  bike: text,
  circuit: text,
  on: text,
  work,
  method,
  left_old: leftOld,
  points: listOf(planPoint),
  reservoir,
  through_ml: band,
  pots_min_max: band,
  buy_ml: whole,
  order_reason: text,
  assumed: listOf(assumed),
  narrow: listOf(narrow),
  cautions: listOf(text),
  sources: listOf(text),
  findings: listOf(text),
  technique: text,
  technique_steps: listOf(text),
  fluid: text,
  target: number,
  pistons_home_first: yesNo,
  minutes: band,
  order: record({ reason: text, difference_ml: number, either: yesNo }),
  pistons_home: listOf(pistonsHome),
  methods: listOf(methodTime),
  tools: listOf(record({ hex_mm: orNull(number), screws: listOf(text) })),
  fill: orElse(orNull(fill), null),
  beyond: orElse(listOf(text), []),
});
export type FlushPlan = Of<typeof flushPlan>;
