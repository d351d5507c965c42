// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Looks at a level: keep one, take one back, and what those that count say. */
import { request, type Answer } from "../lib/request";
import { listOf, mapOf, number, oneOf, orNull, record, text, whole, yesNo, type Of } from "../lib/validate";
import { keptReceipt } from "./kept";
import { circuitPath } from "./paths";
import { assumed, narrow } from "./plan";
import { band } from "./shapes";

export const MEASURES = ["level_share", "below_max_mm", "level_ml"] as const;
const measure = oneOf(...MEASURES);
export type Measure = Of<typeof measure>;

const pads = record({ thin_mm: number, other_mm: orNull(number) });
export type Pads = Of<typeof pads>;

const seen = record({
  on: text,
  measure,
  level: number,
  pads: mapOf(pads),
  discs_mm: mapOf(number),
  topped_up_ml: number,
  km: orNull(number),
  degc: orNull(number),
  stand: oneOf("level", "side stand"),
  new_pads: yesNo,
});
export type Seen = Of<typeof seen>;

const keptLook = record({
  id: text,
  made_at: text,
  who: text,
  machine_revision: whole,
  look: seen,
  taken_back: orNull(record({ at: text, who: text })),
});
export type KeptLook = Of<typeof keptLook>;
export const lookList = record({ looks: listOf(keptLook) });

const stretch = record({
  start: text,
  end: text,
  fell_ml: band,
  topped_up_ml: number,
  drawn_ml: band,
  warmth_ml: band,
  left_ml: band,
  chance_gone: number,
  chance_rose: number,
});

export const VERDICTS = [
  "one look",
  "wear explains it",
  "cannot tell",
  "more has gone than wear explains",
  "the level rose",
] as const;

export const levelReport = record({
  format: oneOf(1),
  kind: oneOf("level"),
  bike: text,
  circuit: text,
  on: text,
  verdict: oneOf(...VERDICTS),
  says: listOf(text),
  left_ml: orNull(band),
  drawn_ml: orNull(band),
  chance_gone: orNull(number),
  chance_rose: orNull(number),
  tolerated_ml: number,
  would_see_ml: orNull(number),
  left_per_month_ml: orNull(band),
  left_per_1000_km_ml: orNull(band),
  between: listOf(stretch),
  level_ml: band,
  above_min_ml: band,
  fill_to_ml: band,
  fill_above_min_ml: band,
  new_pads: orNull(record({ rise_ml: band, level_after_ml: band, take_out_first_ml: number })),
  min_on: orNull(record({ p05: orNull(text), p50: orNull(text), p95: orNull(text) })),
  pads_gone_first: orNull(number),
  is_clutch: yesNo,
  assumed: listOf(assumed),
  narrow: listOf(narrow),
  cautions: listOf(text),
  findings: listOf(text),
  sources: listOf(text),
});
export type LevelReport = Of<typeof levelReport>;
export const levelAnswer = record({ document: orNull(levelReport) });

export interface LookToKeep extends Seen {
  readonly id: string;
  readonly who: string;
}

/** How finely things were read; null where the marks were not measured. */
export interface Fineness {
  readonly ruler: number;
  readonly gauge: number;
  readonly marks: number | null;
}

export function listLooks(machine: string, circuit: string, signal?: AbortSignal): Answer<Of<typeof lookList>> {
  return request(`${circuitPath(machine, circuit)}/looks`, { check: lookList, signal });
}

/** Keep a look under an id made here; sent twice, it is kept once. */
export function keepLook(machine: string, circuit: string, look: LookToKeep): Answer<Of<typeof keptReceipt>> {
  return request(`${circuitPath(machine, circuit)}/looks`, { method: "POST", json: look, check: keptReceipt });
}

export function takeLookBack(
  machine: string,
  circuit: string,
  id: string,
  who: string,
): Answer<Of<typeof keptReceipt>> {
  const path = `${circuitPath(machine, circuit)}/looks/${encodeURIComponent(id)}/taken-back`;
  return request(path, { method: "POST", json: { who }, check: keptReceipt });
}

export function judgeLevel(
  machine: string,
  circuit: string,
  { ruler, gauge, marks }: Fineness,
  signal?: AbortSignal,
): Answer<Of<typeof levelAnswer>> {
  const asked = `ruler_mm=${ruler}&gauge_mm=${gauge}${marks === null ? "" : `&marks_mm=${marks}`}`;
  return request(`${circuitPath(machine, circuit)}/level?${asked}`, { check: levelAnswer, signal });
}
