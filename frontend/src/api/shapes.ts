// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Kinds of value that several answers share. */
import {
  either,
  listOf,
  number,
  oneOf,
  pairOf,
  record,
  whole,
  type Of,
} from "../lib/validate";

export const BIKE_CLASSES = [
  "small",
  "commuter",
  "scooter",
  "naked",
  "sport",
  "tourer",
  "adventure",
  "cruiser",
  "off-road",
] as const;
export const bikeClass = oneOf(...BIKE_CLASSES);
export type BikeClass = Of<typeof bikeClass>;

export const METHODS = ["lever", "vacuum", "gravity", "pressure", "reverse"] as const;
export const method = oneOf(...METHODS);
export type Method = Of<typeof method>;

export const WORKS = ["flush", "bleed", "fill"] as const;
export const work = oneOf(...WORKS);
export type Work = Of<typeof work>;

export const control = oneOf("lever", "pedal", "clutch lever", "thumb lever");
export type Control = Of<typeof control>;

export const range = record({ low: number, high: number });
export type Range = Of<typeof range>;

/** A quantity that somebody gave: exact, or a range. */
export const quantity = either(number, range);
export type Quantity = Of<typeof quantity>;

/** What a question may have as its answer; a list is the sizes of pistons. */
export const answer = either(quantity, record({ list: listOf(number) }));
export type AnswerValue = Of<typeof answer>;

export const band = record({ p05: number, p50: number, p95: number });
export const countBand = record({ p05: whole, p50: whole, p95: whole });
export const point = pairOf(number, number);
export type Point = Of<typeof point>;
