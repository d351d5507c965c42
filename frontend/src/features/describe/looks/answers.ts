// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The talk about what can be seen: which questions, in which order, and what is known so far. */
import type { Outline } from "../../../api/machines";
import { bikeClass, type BikeClass } from "../../../api/shapes";
import { number, oneOf, orNull, record, text, yesNo, type Check, type Of } from "../../../lib/validate";

export type Fork = "splitter" | "double banjo" | "caliper to caliper";

/** Undefined is "not asked yet", null is "don't know". */
export interface Answers {
  readonly bike_class?: BikeClass;
  readonly name?: string;
  readonly front_discs?: number | null;
  readonly front_layout?: "opposed" | "floating" | null;
  readonly fork?: Fork | null;
  readonly abs_unit?: boolean | null;
  readonly rear_disc?: boolean | null;
  readonly hydraulic_clutch?: boolean | null;
  readonly fluid?: string | null;
}

export type Step = keyof Answers;
/** The last page: all answers together. */
export const CHECK = "check";

const fields = {
  bike_class: bikeClass,
  name: text,
  front_discs: orNull(number),
  front_layout: orNull(oneOf("opposed", "floating")),
  fork: orNull(oneOf("splitter", "double banjo", "caliper to caliper")),
  abs_unit: orNull(yesNo),
  rear_disc: orNull(yesNo),
  hydraulic_clutch: orNull(yesNo),
  fluid: orNull(text),
};

/** Kept answers; what was not asked yet is not there. */
export const answersCheck: Check<Answers> = (value, place) => {
  const found: Record<string, unknown> = {};
  const kept = record({})(value, place) && (value as Record<string, unknown>);
  for (const [step, check] of Object.entries(fields) as [string, Check<unknown>][]) {
    if (kept[step] !== undefined) found[step] = check(kept[step], step);
  }
  return found as { -readonly [Name in keyof typeof fields]?: Of<(typeof fields)[Name]> };
};

/** The questions that these answers leave sensible, in their order. */
export function stepsFor(answers: Answers): readonly Step[] {
  const front = answers.front_discs;
  return [
    "bike_class",
    "name",
    "front_discs",
    ...(front === 0 ? [] : (["front_layout"] as const)),
    ...(front === 2 ? (["fork"] as const) : []),
    "abs_unit",
    "rear_disc",
    "hydraulic_clutch",
    "fluid",
  ];
}

/** The page after this one, with the answers as they are now. */
export function stepAfter(step: Step, answers: Answers): Step | typeof CHECK {
  const steps = stepsFor(answers);
  return steps[steps.indexOf(step) + 1] ?? CHECK;
}

/** The page before this one; null at the first. */
export function stepBefore(step: Step | typeof CHECK, answers: Answers): Step | null {
  const steps = stepsFor(answers);
  return (step === CHECK ? steps.at(-1) : steps[steps.indexOf(step) - 1]) ?? null;
}

/** The first question nobody was asked yet. */
export function firstOpen(answers: Answers): Step | typeof CHECK {
  return stepsFor(answers).find((step) => answers[step] === undefined) ?? CHECK;
}

/** The page an address asks for, or the nearest one that makes sense. */
export function stepAt(address: string | null, answers: Answers): Step | typeof CHECK {
  if (answers.bike_class === undefined) return "bike_class";
  if (address === CHECK) return CHECK;
  return stepsFor(answers).find((step) => step === address) ?? "bike_class";
}

/** How far the talk has come, in words. */
export function leftInWords(step: Step, answers: Answers): string {
  const steps = stepsFor(answers);
  const left = steps.length - steps.indexOf(step) - 1;
  if (left === 0) return "The last question";
  return `About ${left} more question${left === 1 ? "" : "s"} after this`;
}

const NAMES: Readonly<Record<BikeClass, string>> = {
  small: "small machine",
  commuter: "commuter",
  scooter: "scooter",
  naked: "naked machine",
  sport: "sport machine",
  tourer: "tourer",
  adventure: "adventure machine",
  cruiser: "cruiser",
  "off-road": "off-road machine",
};

/** What a machine of this class is called until somebody names it. */
export function usualName(of: BikeClass): string {
  return `My ${NAMES[of]}`;
}

/** The answers as the server takes them; null before there is a class. */
export function outlineOf(answers: Answers): Outline | null {
  const { bike_class, front_discs = null } = answers;
  if (bike_class === undefined) return null;
  return {
    name: answers.name?.trim() || usualName(bike_class),
    bike_class,
    front_discs,
    front_layout: front_discs === 0 ? null : (answers.front_layout ?? null),
    fork: front_discs === 2 ? (answers.fork ?? null) : null,
    abs_unit: answers.abs_unit ?? null,
    rear_disc: answers.rear_disc ?? null,
    hydraulic_clutch: answers.hydraulic_clutch ?? null,
    fluid: answers.fluid ?? null,
  };
}

/** Which circuit a question is about. */
export function circuitOf(step: Step | typeof CHECK): string {
  if (step === "rear_disc") return "rear";
  if (step === "hydraulic_clutch") return "clutch";
  return "front";
}
