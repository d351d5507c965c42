// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A run is a pure fold: its sheet and the set of its events, in whatever order they came. */
import type { BenchEvent, Deed, Kind } from "./event";
import { nothingYet, type Facts, type GateState, type TurnFacts } from "./facts";
import { effective, inOrder } from "./order";
import { outOfPlace } from "./places";
import { atAnotherScrew, counted, emptied, filled, seen, shareOf, type PotFacts } from "./pot";
import { correctedUnit, type Cup, type UnitMl } from "./readings";
import type { JobSheet } from "./sheet";
import { tubeVerdict } from "./tube";

type EventOf<K extends Kind> = Extract<Deed, { kind: K }> & BenchEvent;

/** What a log comes to, whatever the order and however often its events came. */
export function fold(sheet: JobSheet, events: Iterable<BenchEvent>): Facts {
  return effective(inOrder(events)).reduce((facts, event) => apply(sheet, facts, event), nothingYet(sheet));
}

/** The facts after one more event; one out of place is listed and changes nothing. */
export function apply(sheet: JobSheet, facts: Facts, event: BenchEvent): Facts {
  const why = outOfPlace(sheet, facts, event);
  if (why !== null) return { ...facts, refused: [...facts.refused, { event: event.id, why }] };
  return { ...facts, ...changed(sheet, facts, event) };
}

/**
 * The cups that tell what a count brings at a screw.
 *
 * A stroke brings the same anywhere. What a second brings depends on the screw and on how far
 * it is open, so there only its own cup tells.
 */
export function cupsFor(sheet: JobSheet, facts: Facts, point: number | null): readonly Cup[] {
  const turns = facts.turns.filter((_, place) => sheet.unit.name === "stroke" || place === point);
  return turns.flatMap(({ cup }) => (cup !== null && cup.at > 0 ? [cup] : []));
}

/** What a count brings at a screw, by the plan and the cups so far. */
export function unitAt(sheet: JobSheet, facts: Facts, point: number | null): UnitMl {
  return correctedUnit(sheet, cupsFor(sheet, facts, point));
}

function changed(sheet: JobSheet, facts: Facts, event: BenchEvent): Partial<Facts> {
  switch (event.kind) {
    case "started":
      return { is_started: true, posture: event.posture, leader: event.device };
    case "gate": {
      const { answer, reason, who, at } = event;
      return { gates: { ...facts.gates, [event.gate]: { answer, reason, who, at } } };
    }
    case "bottle":
      return bottleTaken(sheet, facts, event);
    case "drawn_down":
      // Where fluid comes up, an empty reservoir is all room.
      return { pot: sheet.direction === "up" ? filled(facts.pot, 1) : emptied(facts.pot), below: null };
    case "topped_up":
      return { pot: filled(facts.pot, shareOf(sheet, event.to)), below: null };
    case "level_read":
      return { pot: seen(facts.pot, shareOf(sheet, event.above_min_ml)) };
    case "went_below":
      return wentBelow(facts, event);
    case "at_screw":
      return atScrew(sheet, facts, event.point);
    case "sample":
      return turned(facts, event.point, (turn) => ({ is_begun: true, sample_ml: turn.sample_ml + event.ml }));
    case "set_done":
      return setDone(facts, event);
    case "caught":
      return caught(facts, event);
    case "mark":
      return marked(facts, event);
    case "tube_test":
      return turned(facts, event.point, () => ({ tube: tubeVerdict(event.answers) }));
    case "shut":
      return turned(facts, event.point, () => ({ is_shut: true, is_done: event.is_done, reason: event.reason }));
    case "suction":
      return { suction: event.on };
    case "unit_cycled":
      return { cycled: [...facts.cycled, event.how] };
    case "paused":
      return { is_paused: true };
    case "resumed":
      return { is_paused: false, leader: event.device };
    case "note":
    case "measured":
    case "photo":
    case "ended":
    case "rechecked":
    case "signed":
      return onRecord(facts, event);
    case "undone":
      return {};
  }
}

function bottleTaken(sheet: JobSheet, facts: Facts, event: EventOf<"bottle">): Partial<Facts> {
  const { id, fluid, batch, opened_on } = event;
  const bottles = [...facts.bottles, { event: id, fluid, batch, opened_on }];
  return fluid === sheet.fluid ? { bottles } : { bottles, doubts: [...facts.doubts, { code: "other fluid", event: id }] };
}

function turned(facts: Facts, point: number, set: (turn: TurnFacts) => Partial<TurnFacts>): Pick<Facts, "turns"> {
  return { turns: facts.turns.map((turn, place) => (place === point ? { ...turn, ...set(turn) } : turn)) };
}

function wentBelow(facts: Facts, event: EventOf<"went_below">): Partial<Facts> {
  if (event.what === "port") return { below: "port", work: "bleed", work_why: "level below the port" };
  return { below: facts.below ?? "min", doubts: [...facts.doubts, { code: "below min", event: event.id }] };
}

function atScrew(sheet: JobSheet, facts: Facts, point: number): Partial<Facts> {
  const begun = turned(facts, point, () => ({ is_begun: true, is_shut: false, is_done: false, reason: null }));
  return { point, gates: gatesToKeep(sheet, facts, point), pot: potToKeep(sheet, facts, point), ...begun };
}

function potToKeep(sheet: JobSheet, facts: Facts, point: number): PotFacts {
  const isSame = (facts.point === null || facts.point === point) && facts.turns[point]?.is_shut !== true;
  return isSame || sheet.unit.name === "stroke" ? facts.pot : atAnotherScrew(facts.pot);
}

/** Opening a shut screw again asks the gates before rolling again. */
function gatesToKeep(sheet: JobSheet, facts: Facts, point: number): Readonly<Record<string, GateState>> {
  if (facts.turns[point]?.is_shut !== true) return facts.gates;
  const rolling = new Set(sheet.gates.flatMap((gate) => (gate.before === "rolling" ? [gate.id] : [])));
  return Object.fromEntries(Object.entries(facts.gates).filter(([gate]) => !rolling.has(gate)));
}

function setDone(facts: Facts, event: EventOf<"set_done">): Partial<Facts> {
  const isFilled = facts.pot.share !== null;
  return {
    pot: counted(facts.pot, event.count),
    doubts: isFilled ? facts.doubts : [...facts.doubts, { code: "not filled", event: event.id }],
    ...turned(facts, event.point, (turn) => ({ is_begun: true, count: turn.count + event.count })),
  };
}

function caught(facts: Facts, event: EventOf<"caught">): Partial<Facts> {
  const before = facts.turns[event.point];
  const cup = before?.cup ?? null;
  const isLess = before !== undefined && cup !== null && event.ml < cup.ml && before.count > cup.at;
  return {
    doubts: isLess ? [...facts.doubts, { code: "cup fell", event: event.id }] : facts.doubts,
    ...turned(facts, event.point, (turn) => ({
      cup: { ml: event.ml, sample_ml: turn.sample_ml, at: turn.count },
    })),
  };
}

function marked(facts: Facts, { id, point, look }: EventOf<"mark">): Partial<Facts> {
  return turned(facts, point, (turn) => ({
    marks: [...turn.marks, { event: id, look, count: turn.count }],
    ...(look === "bubbles" ? { bubbles_at: turn.count } : { look }),
  }));
}

function onRecord(
  facts: Facts,
  event: EventOf<"note" | "measured" | "photo" | "ended" | "rechecked" | "signed">,
): Partial<Facts> {
  switch (event.kind) {
    case "note":
      return { notes: [...facts.notes, { event: event.id, text: event.text }] };
    case "measured": {
      const { what, value, unit } = event;
      return { measured: [...facts.measured, { event: event.id, what, value, unit }] };
    }
    case "photo":
      return { photos: [...facts.photos, { event: event.id, name: event.name }] };
    case "ended":
      return { ended: { ...facts.ended, [event.end]: { at: event.at, who: event.who } } };
    case "rechecked": {
      const { answer, reason } = event;
      return { rechecks: { ...facts.rechecks, [event.follow_up]: { answer, reason } } };
    }
    case "signed":
      return { signed: { name: event.name, at: event.at } };
  }
}
