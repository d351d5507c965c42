// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What somebody types of one look, and the look it makes. */
import type { Pads, Seen } from "../../api/looks";
import type { LookDraft } from "../../drafts";
import { done, failed, type Result } from "../../lib/result";

export type Typed = LookDraft;

export type Faults = Readonly<Record<string, string>>;
const NO_NUMBER = "A number, as 3.2, goes here.";

/** Nothing typed yet, today's day. */
export function blank(on: string, calipers: readonly string[]): Typed {
  return {
    id: null,
    on,
    measure: "level_share",
    share: 0.5,
    level: "",
    pads: Object.fromEntries(calipers.map((name) => [name, { thin: "", other: "" }])),
    poured: "",
    km: "",
    isOnSide: false,
    hasNewPads: false,
  };
}

/** The look in metric units, or each box that is wrong by its name. */
export function lookOf(typed: Typed, metric: (value: number, unit: string) => number): Result<Seen, Faults> {
  const faults: Record<string, string> = {};
  const read = (place: string, text: string, unit: string): number => {
    const value = text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));
    if (!Number.isFinite(value)) faults[place] = NO_NUMBER;
    return Number(metric(value, unit).toPrecision(6));
  };
  const maybe = (place: string, text: string, unit: string): number | null =>
    text.trim() === "" ? null : read(place, text, unit);
  const unit = typed.measure === "level_ml" ? "ml" : "mm";
  const level = typed.measure === "level_share" ? typed.share : read("level", typed.level, unit);
  const pads: Record<string, Pads> = {};
  for (const [name, sizes] of Object.entries(typed.pads)) {
    pads[name] = {
      thin_mm: read(`thin ${name}`, sizes.thin, "mm"),
      other_mm: maybe(`other ${name}`, sizes.other, "mm"),
    };
  }
  const look: Seen = {
    on: typed.on,
    measure: typed.measure,
    level,
    pads,
    discs_mm: {},
    topped_up_ml: maybe("poured", typed.poured, "ml") ?? 0,
    km: maybe("km", typed.km, "km"),
    degc: null,
    stand: typed.isOnSide ? "side stand" : "level",
    new_pads: typed.hasNewPads,
  };
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed.on)) faults["on"] = "The day of the look goes here.";
  return Object.keys(faults).length === 0 ? done(look) : failed(faults);
}
