// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Whether an event is in place: one that is not changes nothing and is listed with why. */
import type { BenchEvent, Deed, Kind } from "./event";
import type { Facts } from "./facts";
import type { JobSheet } from "./sheet";
import { areFollowUpsOpen, areScrewsSettled, gatesOpen, phaseOf } from "./stages";

type DeedOf<K extends Kind> = Extract<Deed, { kind: K }>;

const AFTER_GIVING_UP: ReadonlySet<Kind> = new Set(["note", "photo", "measured", "signed"]);
/** What would be new work once the job has come to an end. */
const WORK: ReadonlySet<Kind> = new Set(["drawn_down", "at_screw", "sample", "set_done", "suction", "shut"]);

/** Why an event cannot count, or null where it can. */
export function outOfPlace(sheet: JobSheet, facts: Facts, event: BenchEvent): string | null {
  if (!facts.is_started) return event.kind === "started" ? null : "not started";
  if ("point" in event && event.point >= sheet.points.length) return "no such screw";
  if (facts.ended["given up"] !== undefined && !AFTER_GIVING_UP.has(event.kind)) return "given up";
  if (Object.keys(facts.ended).length > 0 && WORK.has(event.kind)) return "ended";
  switch (event.kind) {
    case "gate":
      return gateWhy(sheet, facts, event);
    case "set_done":
    case "sample":
      if (gatesOpen(sheet, facts, "opening").length > 0) return "gates open";
      if (facts.point !== event.point) return "not at this screw";
      if (facts.turns[event.point]?.is_shut === true) return "screw shut";
      return gatesOpen(sheet, facts, "screw", event.point).length > 0 ? "gates open" : null;
    case "shut":
      return event.is_done && gatesOpen(sheet, facts, "shutting", event.point).length > 0 ? "gates open" : null;
    case "rechecked":
      return recheckWhy(sheet, facts, event);
    case "ended":
      return endWhy(sheet, facts, event);
    default:
      return null;
  }
}

function gateWhy(sheet: JobSheet, facts: Facts, deed: DeedOf<"gate">): string | null {
  const gate = sheet.gates.find(({ id }) => id === deed.gate);
  if (gate === undefined) return "no such gate";
  if (deed.answer === "overridden" && deed.reason === null) return "no reason";
  return gate.before === "rolling" && !areScrewsSettled(facts) ? "screws open" : null;
}

function recheckWhy(sheet: JobSheet, facts: Facts, deed: DeedOf<"rechecked">): string | null {
  if (!sheet.follow_ups.some(({ id }) => id === deed.follow_up)) return "no such follow-up";
  if (facts.ended["first stop done"] === undefined) return "first stop not done";
  return deed.answer === "waived" && deed.reason === null ? "no reason" : null;
}

function endWhy(sheet: JobSheet, facts: Facts, deed: DeedOf<"ended">): string | null {
  const { ended } = facts;
  if (ended[deed.end] !== undefined || ended.closed !== undefined) return "already ended";
  switch (deed.end) {
    case "given up":
      return deed.reason === null ? "no reason" : null;
    case "ready to roll":
      return rollingWhy(sheet, facts);
    case "first stop done":
      return ended["ready to roll"] === undefined ? "not ready to roll" : null;
    case "closed":
      if (ended["first stop done"] === undefined) return "first stop not done";
      return areFollowUpsOpen(sheet, facts) ? "follow-ups open" : null;
  }
}

function rollingWhy(sheet: JobSheet, facts: Facts): string | null {
  if (phaseOf(sheet, facts) !== "before rolling") return "screws open";
  if (gatesOpen(sheet, facts, "rolling").length > 0) return "gates open";
  return facts.below === null ? null : "level low";
}
