// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The job sheet: all that the bench needs, frozen when a job starts. */
import {
  listOf,
  mapOf,
  number,
  oneOf,
  orElse,
  orNull,
  record,
  text,
  whole,
  yesNo,
  type Of,
} from "../lib/validate";

const band = record({ p05: number, p50: number, p95: number });
export type Band = Of<typeof band>;
const countBand = record({ p05: whole, p50: whole, p95: whole });

const strip = record({ slice_ml: number, origins: listOf(text), shares: listOf(listOf(number)) });
export type Strip = Of<typeof strip>;
const washout = record({ volume_ml: listOf(number), new_share: listOf(band) });
export type Washout = Of<typeof washout>;

const sheetPoint = record({
  at: text,
  part: text,
  hex_mm: orNull(number),
  posture: orNull(text),
  note: orNull(text),
  volume_ml: band,
  strokes: orNull(countBand),
  minutes: band,
  strip,
  washout,
});
export type SheetPoint = Of<typeof sheetPoint>;

/** "screw" is asked before a point is worked, "shutting" before it may be called done. */
const gate = record({
  id: text,
  before: oneOf("opening", "screw", "shutting", "rolling"),
  words: text,
  why: text,
  point: orElse(orNull(whole), null),
  see: orElse(orNull(text), null),
  stop: orElse(orNull(text), null),
});
export type Gate = Of<typeof gate>;

const airPlace = record({
  id: text,
  words: text,
  remedy: text,
  likely: number,
  screw: orNull(whole),
  volume_ml: orNull(band),
});
/** A place at which air may sit, with the screw and the millilitres it is due at. */
export type AirPlace = Of<typeof airPlace>;

const followUp = record({ id: text, words: text, after_hours: number });

export const jobSheet = record({
  format: oneOf(1),
  kind: oneOf("job sheet"),
  bike: text,
  circuit: text,
  control: text,
  made_on: text,
  work: text,
  method: text,
  technique: text,
  technique_steps: listOf(text),
  fluid: text,
  target: number,
  direction: oneOf("down", "up"),
  unit: record({ name: oneOf("stroke", "second"), ml: band }),
  pace_s: orNull(record({ low: number, high: number })),
  reservoir: record({
    part: text,
    usable_ml: band,
    tilt_ml: number,
    fill_to_ml: orNull(number),
    read_error_ml: number,
  }),
  cup: record({ read_error_ml: number, read_error_share: number, beside_share: number }),
  points: listOf(sheetPoint),
  has_modulator: yesNo,
  unswept: mapOf(band),
  units: orElse(mapOf(record({ in_unit: band, of_whole: band })), {}),
  tube: orElse(orNull(record({ rest_minutes: whole, gas_ml_per_100_ml: orNull(band) })), null),
  gates: listOf(gate),
  follow_ups: listOf(followUp),
  cautions: listOf(text),
  findings: listOf(text),
  sources: listOf(text),
  air: orElse(listOf(airPlace), []),
  froth_minutes: orElse(orNull(whole), null),
});
/** A job sheet; anything unknown in it is left behind. */
export type JobSheet = Of<typeof jobSheet>;
