// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { request, type Answer } from "../lib/request";
import { listOf, number, oneOf, orNull, record, text, yesNo, type Of } from "../lib/validate";
import { circuitPath } from "./paths";
import { flushPlan } from "./plan";
import { answer, point, type Method, type Work } from "./shapes";

const label = record({ text, at: point, anchor: oneOf("start", "middle", "end") });
const scenePart = record({
  owner: text,
  kind: text,
  shape: oneOf("pot", "cylinder", "box", "caliper", "knot", "stub"),
  x: number,
  y: number,
  width: number,
  height: number,
  height_mm: number,
  height_known: yesNo,
  label,
});
export const scene = record({
  width: number,
  height: number,
  marks: listOf(record({ height_mm: number, y: number })),
  parts: listOf(scenePart),
  lines: listOf(record({ owner: text, points: listOf(point), width: number })),
  screws: listOf(record({ screw: text, part: text, at: point, label })),
  resting: listOf(record({ owner: text, at: point, label })),
  words: listOf(text),
});
/** The drawing of a circuit, laid out by the server; nothing here lays out again. */
export type Scene = Of<typeof scene>;

const question = record({
  key: text,
  also: listOf(text),
  words: text,
  measure: text,
  unit: text,
  low: number,
  high: number,
  usual_low: orNull(number),
  usual_high: orNull(number),
  picture: text,
  per_cent: number,
  given: orNull(answer),
});
export type Question = Of<typeof question>;
export const questionList = record({ questions: listOf(question) });

export const planAnswer = record({ plan: flushPlan, scene });
export type PlanAnswer = Of<typeof planAnswer>;

/** What somebody asks of a plan; what is left out falls to the usual. */
export interface PlanWish {
  /** Left out for a flush. */
  readonly work?: Exclude<Work, "flush">;
  readonly method?: Method;
  readonly technique?: string;
  readonly target?: number;
  readonly pistons_home?: boolean;
  readonly fluid?: string;
  readonly workshop_degc?: number;
  readonly seed?: number;
}

export function getScene(id: string, circuit: string, signal?: AbortSignal): Answer<Scene> {
  return request(`${circuitPath(id, circuit)}/scene`, { check: scene, signal });
}

export function makePlan(id: string, circuit: string, wish: PlanWish, signal?: AbortSignal): Answer<PlanAnswer> {
  return request(`${circuitPath(id, circuit)}/plan`, {
    method: "POST",
    json: wish,
    check: planAnswer,
    signal,
  });
}

export function getQuestions(id: string, circuit: string, signal?: AbortSignal): Answer<Of<typeof questionList>> {
  return request(`${circuitPath(id, circuit)}/questions`, { check: questionList, signal });
}
