// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What a question is called, and how its figures are written. */
import type { Question } from "../api/circuits";
import type { MachineDetail } from "../api/machines";
import { shown, unit } from "../display";
import { plain, span } from "../lib/figures";

const SCREW = "screw:";

/** Whose quantity a key names: "front/screw:left caliper/hex_mm". */
export function ownerOf(key: string): string {
  const owner = drawnOwnerOf(key);
  if (owner.startsWith(SCREW)) return `screw on the ${owner.slice(SCREW.length)}`;
  const [start, end] = owner.split(" > ");
  return end === undefined ? owner : `line from ${start} to ${end}`;
}

/** The part, line or "screw:..." in the drawing that a key is about. */
export function drawnOwnerOf(key: string): string {
  return key.split("/").slice(1, -1).join("/");
}

function quantityOf(key: string): string {
  return key.split("/").at(-1) ?? key;
}

/** The names in a key that people gave, which no other set of words may touch. */
export function givenNames(question: Question): string[] {
  return [question.key, ...question.also].flatMap((key) => drawnOwnerOf(key).replace(SCREW, "").split(" > "));
}

/** What is asked: "Left caliper: friction material left on each pad". */
export function titleOf(question: Question): string {
  const owner = ownerOf(question.key);
  return `${owner.charAt(0).toUpperCase()}${owner.slice(1)}: ${question.words}`;
}

/** The other places that are made alike: "right caliper". */
export function alikeOf(question: Question): string {
  return question.also.map(ownerOf).join(", ");
}

export function isPistons(question: Question): boolean {
  return quantityOf(question.key) === "pistons_mm";
}

/** Whether a question is about a caliper that clasps its disc from both sides. */
export function isOpposed(machine: MachineDetail, circuit: string, question: Question): boolean {
  const parts = machine.bike.circuits.find((one) => one.name === circuit)?.parts ?? [];
  return parts.find((part) => part.id === drawnOwnerOf(question.key))?.layout === "opposed";
}

const FINER_PICTURES: Readonly<Record<string, string>> = {
  unswept_ml: "pocket",
  volume_ml: "volume",
  volume_home_ml: "volume",
  left_after_draw_ml: "pot",
  leverage: "leverage",
  stroke_used: "stroke",
};

/** The small drawing that goes with a question. */
export function pictureOf(question: Question): string {
  return FINER_PICTURES[quantityOf(question.key)] ?? question.picture;
}

/** Shares are typed and read in per cent. */
export function isShare(question: Question): boolean {
  return question.unit === "" && question.high <= 1;
}

/** The unit behind the box. */
export function boxUnit(question: Question): string {
  return isShare(question) ? "%" : unit(question.unit);
}

/** A metric value as the box shows it. */
export function inBox(value: number, question: Question): string {
  return plain(isShare(question) ? 100 * value : shown(value, question.unit));
}

/** From here to there, with the unit of the box. */
export function rangeInWords(low: number, high: number, question: Question): string {
  const [start, end] = isShare(question)
    ? [100 * low, 100 * high]
    : [shown(low, question.unit), shown(high, question.unit)];
  return `${span(start, end)} ${boxUnit(question)}`.trimEnd();
}

/** The two ends as they are, for a limit that must not be rounded. */
export function limitsInWords(question: Question): string {
  return `${inBox(question.low, question)} to ${inBox(question.high, question)} ${boxUnit(question)}`.trimEnd();
}

/** What is known of it now, in words. */
export function givenInWords(question: Question): string {
  const { given } = question;
  const behind = boxUnit(question);
  if (given === null) return "not known";
  if (typeof given === "number") return `${inBox(given, question)} ${behind}`.trimEnd();
  if ("list" in given) return `${given.list.map((one) => inBox(one, question)).join(", ")} ${behind}`;
  return `${inBox(given.low, question)} to ${inBox(given.high, question)} ${behind}`.trimEnd();
}

/** How much an answer would help, in words; nothing where it is next to nothing. */
export function gainInWords(question: Question): string {
  if (question.per_cent < 1) return "";
  return `Takes away about ${Math.round(question.per_cent)} % of the uncertainty`;
}
