// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Reads one event strictly: nothing unknown, nothing out of range, every fault named at once. */
import type { BenchEvent } from "./event";
import { isId } from "./ids";
import { done, failed, type Result } from "../lib/result";

/** What is wrong with a value, or null. */
type Rule = (value: unknown) => string | null;

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/;
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const MOST_COUNT = 5000;
const MOST_POINT = 99;
const MOST_ML = 5000;
const MOST_VALUE = 1e9;
const LONG = 500;
const NAME = 120;
const SHORT = 60;

/** Half of a pair that makes one character: nothing that people write. */
const HALF_A_PAIR = /\p{Surrogate}/u;
const textUpTo = (most: number): Rule => (value) => {
  const isText = typeof value === "string" && value.trim() !== "" && !HALF_A_PAIR.test(value);
  return isText && [...value].length <= most ? null : `a text of 1 to ${most} characters`;
};
const wholeFrom = (low: number, high: number): Rule => (value) =>
  Number.isInteger(value) && Number(value) >= low && Number(value) <= high ? null : `a whole number from ${low} to ${high}`;
const numberFrom = (low: number, high: number): Rule => (value) =>
  typeof value === "number" && Number.isFinite(value) && value >= low && value <= high ? null : `a number from ${low} to ${high}`;
const oneOf = (...words: readonly string[]): Rule => (value) =>
  words.some((word) => word === value) ? null : `one of ${words.join(", ")}`;
const yesNo: Rule = (value) => (typeof value === "boolean" ? null : "true or false");
const id: Rule = (value) => (typeof value === "string" && isId(value) ? null : "a UUIDv7 in lower case");
const instant: Rule = (value) =>
  typeof value === "string" && INSTANT.test(value) && isRealTime(value) ? null : "a time such as 2026-05-01T09:30:00.000Z";
const isRealTime = (text: string): boolean => {
  const ms = Date.parse(text);
  return !Number.isNaN(ms) && new Date(ms).toISOString() === text;
};
const day: Rule = (value) =>
  typeof value === "string" && DAY.test(value) && isRealTime(`${value}T00:00:00.000Z`) ? null : "a day such as 2026-05-01";
const orNull = (rule: Rule): Rule => (value) => (value === null ? null : rule(value));
const level: Rule = (value) =>
  value === "max" || value === "fill line" ? null : numberFrom(0, MOST_ML)(value) && "max, fill line or millilitres above MIN";

const reason = orNull(textUpTo(LONG));
const yesNoNull = orNull(yesNo);
const point = wholeFrom(0, MOST_POINT);
const ml = numberFrom(0, MOST_ML);

type Rules = Readonly<Record<string, Rule>>;
const STAMP: Rules = { id, at: instant, who: textUpTo(SHORT), device: textUpTo(40) };
const ANSWERS: Rules = {
  shut_bubbles_go_on: yesNoNull,
  gravity_bubbles: yesNoNull,
  after_rest_bubbles: yesNoNull,
};
const answers: Rule = (value) =>
  isObject(value) && faultsOf(value, ANSWERS).length === 0
    ? null
    : `true, false or null for each of ${Object.keys(ANSWERS).join(", ")}`;
const KINDS: Readonly<Record<BenchEvent["kind"], Rules>> = {
  started: { posture: oneOf("level", "side stand") },
  gate: { gate: textUpTo(SHORT), answer: oneOf("yes", "no", "does not apply", "overridden"), reason },
  bottle: { fluid: textUpTo(SHORT), batch: orNull(textUpTo(SHORT)), opened_on: orNull(day) },
  drawn_down: {},
  topped_up: { to: level },
  level_read: { above_min_ml: ml },
  went_below: { what: oneOf("min", "port") },
  at_screw: { point },
  sample: { point, ml },
  set_done: { point, count: wholeFrom(1, MOST_COUNT) },
  caught: { point, ml },
  mark: { point, look: oneOf("dark", "bubbles", "clear") },
  suction: { on: yesNo },
  tube_test: { point, answers },
  shut: { point, is_done: yesNo, reason },
  unit_cycled: { how: oneOf("maker's tool", "workshop", "on the road") },
  paused: {},
  resumed: {},
  note: { text: textUpTo(LONG) },
  measured: { what: textUpTo(SHORT), value: numberFrom(-MOST_VALUE, MOST_VALUE), unit: textUpTo(12) },
  photo: { name: textUpTo(NAME) },
  undone: { target: id },
  ended: { end: oneOf("ready to roll", "first stop done", "closed", "given up"), reason },
  rechecked: { follow_up: textUpTo(SHORT), answer: oneOf("firm", "soft", "waived"), reason },
  signed: { name: textUpTo(SHORT) },
};

/** One fault: the key it stands at, and what is wrong in words. */
export interface Fault {
  readonly key: string;
  readonly words: string;
}

/** An event from elsewhere, or all that is wrong with it. */
export function readEvent(value: unknown): Result<BenchEvent, readonly Fault[]> {
  if (!isObject(value)) return failed([{ key: "event", words: "the event should be an object" }]);
  const kind = value["kind"];
  if (!isKind(kind)) {
    return failed([{ key: "kind", words: `kind should be one of ${Object.keys(KINDS).join(", ")}` }]);
  }
  const faults = faultsOf(value, { ...STAMP, ...KINDS[kind] });
  if (kind === "gate" && value["answer"] === "overridden" && value["reason"] === null) {
    faults.push({ key: "reason", words: "to override a gate, say why" });
  }
  // Every field was held to its rule.
  return faults.length === 0 ? done(value as unknown as BenchEvent) : failed(faults);
}

function faultsOf(value: Record<string, unknown>, rules: Rules): Fault[] {
  const wrong = Object.entries(rules).flatMap(([key, rule]) => {
    if (!Object.hasOwn(value, key)) return [{ key, words: `${key} is missing` }];
    const wanted = rule(value[key]);
    return wanted === null ? [] : [{ key, words: `${key} should be ${wanted}` }];
  });
  const strange = Object.keys(value).filter((key) => key !== "kind" && !Object.hasOwn(rules, key));
  return [...wrong, ...strange.map((key) => ({ key, words: `${key} is not known` }))];
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isKind(value: unknown): value is BenchEvent["kind"] {
  return typeof value === "string" && Object.hasOwn(KINDS, value);
}
