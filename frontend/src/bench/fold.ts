// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The state of a run: a pure function of its sheet and the set of its events. */
import type { BenchEvent, Deed } from "./event";
import { nothingYet, type Facts, type TurnFacts } from "./facts";
import { markAt } from "./marks";
import { effective, inOrder } from "./order";
import { newShare, outMl } from "./out";
import { filledTo } from "./pot";
import { stageOf } from "./stages";
import type { JobSheet } from "./sheet";
import type { BenchState } from "./state";
import { toldOf, unitNow } from "./told";
import { tubeVerdict } from "./tube";

/** Fold a log in any order of arrival. */
export function fold(sheet: JobSheet, events: Iterable<BenchEvent>): BenchState {
  return toldOf(sheet, factsOf(sheet, events));
}

export function factsOf(sheet: JobSheet, events: Iterable<BenchEvent>): Facts {
  return effective(inOrder(events)).reduce((facts, event) => apply(sheet, facts, event), nothingYet(sheet));
}

/** One event on top of the facts; one out of place changes nothing and is listed. */
export function apply(sheet: JobSheet, facts: Facts, event: BenchEvent): Facts {
  const why = outOfPlace(sheet, facts, event);
  if (why !== null) return { ...facts, refused: [...facts.refused, { event: event.id, why }] };
  return { ...facts, ...change(sheet, facts, event) };
}

function outOfPlace(sheet: JobSheet, facts: Facts, event: BenchEvent): string | null {
  if (event.kind === "started") return facts.is_started ? "already started" : null;
  if (!facts.is_started) return "not started";
  if ("point" in event && event.point >= sheet.points.length) return "no such screw";
  const stage = stageOf(sheet, facts);
  if (stage.phase === "given up" && !AFTER_THE_END.has(event.kind)) return "given up";
  switch (event.kind) {
    case "gate":
      if (!sheet.gates.some((gate) => gate.id === event.gate)) return "no such gate";
      return event.answer === "overridden" && event.reason === null ? "no reason" : null;
    case "sample":
    case "set_done":
      return stage.phase === "before opening" ? "gates open" : null;
    case "rechecked":
      if (!sheet.follow_ups.some((one) => one.id === event.follow_up)) return "no such follow-up";
      return event.answer === "waived" && event.reason === null ? "no reason" : null;
    case "ended":
      return endOutOfPlace(stage, facts, event);
    default:
      return null;
  }
}

const AFTER_THE_END: ReadonlySet<string> = new Set(["note", "photo", "measured", "signed"]);

function endOutOfPlace(
  stage: ReturnType<typeof stageOf>,
  facts: Facts,
  event: Extract<Deed, { kind: "ended" }>,
): string | null {
  switch (event.end) {
    case "given up":
      return event.reason === null ? "no reason" : null;
    case "ready to roll":
      if (stage.phase === "before opening" || stage.phase === "working") return "screws open";
      return stage.gates_open.length > 0 ? "gates open" : null;
    case "first stop done":
      return facts.ended["ready to roll"] === undefined ? "not ready to roll" : null;
    case "closed":
      if (facts.ended["first stop done"] === undefined) return "first stop not done";
      return stage.follow_ups_open ? "follow-ups open" : null;
  }
}

function change(sheet: JobSheet, facts: Facts, event: BenchEvent): Partial<Facts> {
  switch (event.kind) {
    case "started":
      return { is_started: true, posture: event.posture, leader: event.device };
    case "gate": {
      const { answer, reason, who, at } = event;
      return { gates: { ...facts.gates, [event.gate]: { answer, reason, who, at } } };
    }
    case "drawn_down":
      return { pot: null, below: null };
    case "topped_up":
      return { pot: { above_min_ml: filledTo(sheet, event.to, facts.posture), since: 0 }, below: null };
    case "level_read":
      return { pot: { above_min_ml: filledTo(sheet, event.above_min_ml, facts.posture), since: 0 }, below: null };
    case "went_below":
      return wentBelow(facts, event);
    case "at_screw":
      return {
        point: event.point,
        ...turned(facts, event.point, () => ({ is_begun: true, is_shut: false, is_done: false, reason: null })),
      };
    case "sample":
      return turned(facts, event.point, (turn) => ({ is_begun: true, sample_ml: turn.sample_ml + event.ml }));
    case "set_done":
      return setDone(facts, event);
    case "caught":
      return caught(facts, event);
    case "mark":
      return marked(sheet, facts, event);
    case "tube_test":
      return turned(facts, event.point, () => ({ tube: tubeVerdict(event.answers) }));
    case "shut":
      return turned(facts, event.point, () => ({ is_shut: true, is_done: event.is_done, reason: event.reason }));
    case "unit_cycled":
      return { cycled: [...facts.cycled, event.how] };
    case "paused":
      return { is_paused: true };
    case "resumed":
      return { is_paused: false, leader: event.device };
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
      return { rechecked: { ...facts.rechecked, [event.follow_up]: { answer, reason } } };
    }
    case "signed":
      return { signed: { name: event.name, at: event.at } };
    case "suction":
    case "undone":
      return {};
  }
}

function turned(facts: Facts, point: number, set: (turn: TurnFacts) => Partial<TurnFacts>): Pick<Facts, "turns"> {
  return { turns: facts.turns.map((turn, place) => (place === point ? { ...turn, ...set(turn) } : turn)) };
}

function wentBelow(facts: Facts, event: Extract<BenchEvent, { kind: "went_below" }>): Partial<Facts> {
  if (event.what === "port") return { below: "port", work: "bleed", work_why: "level below the port" };
  return { below: "min", doubts: [...facts.doubts, { code: "below min", event: event.id }] };
}

function setDone(facts: Facts, event: Extract<BenchEvent, { kind: "set_done" }>): Partial<Facts> {
  const pot = facts.pot && { ...facts.pot, since: facts.pot.since + event.count };
  return { pot, ...turned(facts, event.point, (turn) => ({ is_begun: true, count: turn.count + event.count })) };
}

function caught(facts: Facts, event: Extract<BenchEvent, { kind: "caught" }>): Partial<Facts> {
  return turned(facts, event.point, (turn) => ({
    cup: { ml: event.ml, sample_ml: turn.sample_ml, at: turn.count },
  }));
}

function marked(sheet: JobSheet, facts: Facts, event: Extract<BenchEvent, { kind: "mark" }>): Partial<Facts> {
  const point = sheet.points[event.point];
  if (point === undefined) return {};
  return turned(facts, event.point, (turn) => {
    const out = outMl(sheet, turn, unitNow(sheet, facts));
    const share = newShare(point.washout, out);
    return {
      marks: [...turn.marks, markAt(event.id, event.look, out, share, point.strip)],
      ...(event.look === "bubbles" ? { bubbles_at: turn.count } : { look: event.look }),
    };
  });
}
