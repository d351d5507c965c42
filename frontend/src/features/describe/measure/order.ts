// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Which question comes next, and how many are worth asking. */
import type { Question } from "../../../api/circuits";

/** Below this share of the uncertainty an answer is not worth asking for. */
export const LEAST_PER_CENT = 1;

/** The questions still worth asking, best first; `put_off` are the keys nobody can tell. */
export function worthAsking(questions: readonly Question[], putOff: readonly string[]): readonly Question[] {
  return questions.filter(
    (one) => one.given === null && one.per_cent >= LEAST_PER_CENT && !putOff.includes(one.key),
  );
}

/** Answers that are only rough, and would help more if they were closer; best first. */
export function worthACloserLook(questions: readonly Question[], most: number): readonly Question[] {
  return questions.filter((one) => one.given !== null && one.per_cent >= LEAST_PER_CENT).slice(0, most);
}

/** The best question after this one; null when the rest changes next to nothing. */
export function nextAfter(
  key: string | null,
  questions: readonly Question[],
  putOff: readonly string[],
): Question | null {
  return worthAsking(questions, putOff).find((one) => one.key !== key) ?? null;
}

/** How far the talk has come, in words. */
export function leftInWords(left: number): string {
  if (left === 0) return "The last one that is worth asking";
  return `About ${left} more question${left === 1 ? "" : "s"} worth asking`;
}
