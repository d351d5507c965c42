// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** From the boxes of a question to the answer, or to what is wrong with them. */
import type { Question } from "../api/circuits";
import type { AnswerValue } from "../api/shapes";
import { metricOf } from "../display";
import { done, failed, type Result } from "../lib/result";
import { fromShown } from "../lib/units";
import { boxUnit, inBox, isPistons, isShare, limitsInWords, rangeInWords } from "./naming";
import { readTyped, type TypedUnit } from "./typed";

/** "value" is exact, "give" is a figure give or take another, "between" is two ends. */
export type Mode = "value" | "give" | "between";

export interface Boxes {
  readonly mode: Mode;
  readonly value: string;
  readonly give: string;
  readonly low: string;
  readonly high: string;
  /** Of pistons on both sides of the disc, only one side was typed. */
  readonly isOneSide: boolean;
}

export type Box = "value" | "give" | "low" | "high";
export type Faults = Partial<Record<Box, string>>;

export const EMPTY: Boxes = { mode: "value", value: "", give: "", low: "", high: "", isOneSide: false };

/** The boxes as they were when this was answered. */
export function boxesOf(question: Question): Boxes {
  const { given } = question;
  if (given === null) return EMPTY;
  if (typeof given === "number") return { ...EMPTY, value: inBox(given, question) };
  if ("list" in given) {
    return { ...EMPTY, value: given.list.map((one) => inBox(one, question)).join("  ") };
  }
  const { low, high } = given;
  return { ...EMPTY, mode: "between", low: inBox(low, question), high: inBox(high, question) };
}

/** Read the boxes of the chosen kind of answer. */
export function readBoxes(boxes: Boxes, question: Question): Result<AnswerValue, Faults> {
  if (isPistons(question)) return readPistons(boxes, question);
  switch (boxes.mode) {
    case "value":
      return readOnly("value", boxes.value, question);
    case "give":
      return giveOrTake(boxes, question);
    case "between":
      return between(boxes, question);
  }
}

function readOnly(box: Box, text: string, question: Question): Result<number, Faults> {
  const found = readOne(text, question);
  return found.ok ? found : failed({ [box]: found.reason });
}

function giveOrTake(boxes: Boxes, question: Question): Result<AnswerValue, Faults> {
  const middle = readOnly("value", boxes.value, question);
  const typed = readTyped(boxes.give);
  const width = typed && inMetric(typed.value, typed.unit, question);
  const faults: Faults = {
    ...(!middle.ok && middle.reason),
    ...((width === null || width < 0) && { give: "How far off can it be? A figure, for example 0.5." }),
  };
  if (!middle.ok || width === null || width < 0) return failed(faults);
  if (width === 0) return middle;
  return done({
    low: Math.max(tidy(middle.value - width), question.low),
    high: Math.min(tidy(middle.value + width), question.high),
  });
}

function between(boxes: Boxes, question: Question): Result<AnswerValue, Faults> {
  const low = readOnly("low", boxes.low, question);
  const high = readOnly("high", boxes.high, question);
  if (!low.ok || !high.ok) {
    return failed({ ...(!low.ok && low.reason), ...(!high.ok && high.reason) });
  }
  if (low.value === high.value) return low;
  return done({ low: Math.min(low.value, high.value), high: Math.max(low.value, high.value) });
}

function readPistons(boxes: Boxes, question: Question): Result<AnswerValue, Faults> {
  const words = boxes.value.trim().split(/\s*[;]\s*|,\s+|\s+(?!in\b|mm\b|\d+\/)/).filter(Boolean);
  const sizes = words.map((word) => readOne(word, question));
  const wrong = sizes.find((size) => !size.ok);
  if (words.length === 0) return failed({ value: "One size for each piston, for example 27 27." });
  if (wrong && !wrong.ok) return failed({ value: wrong.reason });
  const list = sizes.flatMap((size) => (size.ok ? [size.value] : []));
  return done({ list: boxes.isOneSide ? [...list, ...list] : list });
}

function readOne(text: string, question: Question): Result<number, string> {
  if (text.trim() === "") return failed("A figure goes here. If you cannot tell, press Don't know.");
  const typed = readTyped(text);
  if (!typed) return failed(`“${text.trim()}” is no figure. Write it like 12.7 or 5/8 in.`);
  const value = inMetric(typed.value, typed.unit, question);
  if (value === null) {
    return failed(`That unit does not fit: this is asked in ${boxUnit(question) || "a plain figure"}.`);
  }
  if (value < question.low || value > question.high) {
    return failed(`That cannot be: it lies anywhere from ${limitsInWords(question)}. Is the unit right?`);
  }
  return done(value);
}

const METRIC: Readonly<Record<string, readonly [unit: string, factor: number]>> = {
  mm: ["mm", 1],
  cm: ["mm", 10],
  ml: ["ml", 1],
};

/** A typed figure in the unit of the question; null where its own unit is another kind. */
function inMetric(value: number, unit: TypedUnit, question: Question): number | null {
  if (unit === null) return tidy(isShare(question) ? value / 100 : metricOf(value, question.unit));
  if (unit === "%") return isShare(question) ? tidy(value / 100) : null;
  if (unit === "in") return question.unit === "mm" ? tidy(fromShown(value, "mm", "imperial")) : null;
  if (unit === "fl oz") return question.unit === "ml" ? tidy(fromShown(value, "ml", "imperial")) : null;
  const [metric, factor] = METRIC[unit] ?? [];
  return metric === question.unit && factor !== undefined ? tidy(value * factor) : null;
}

/** Without the dust that binary arithmetic leaves. */
function tidy(value: number): number {
  return Number(value.toPrecision(6));
}

/** A word on a figure that is possible but not usual; empty where it is usual. */
export function unusualIn(answer: AnswerValue, question: Question): string {
  const { usual_low: low, usual_high: high } = question;
  if (low === null || high === null) return "";
  const ends =
    typeof answer === "number" ? [answer] : "list" in answer ? answer.list : [(answer.low + answer.high) / 2];
  if (ends.every((end) => end >= low && end <= high)) return "";
  return `Unusual: mostly it is ${rangeInWords(low, high, question)}. If you measured it, it is right.`;
}
