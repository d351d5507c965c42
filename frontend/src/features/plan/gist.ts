// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What each folded part of the plan says of its inside: its main figure, in a sentence. */
import type { FlushPlan } from "../../api/plan";
import { bandAmount, say } from "../../display";
import { bandRange, plain, span } from "../../lib/figures";
import { METHOD_WORDS } from "./Methods";
import { asSentence, givenNames, ownerOf, ownerWords, type Named } from "./sentence";

/** What the best of the offers would bring, and how long the quickest method takes. */
export function changeGist(plan: FlushPlan): string {
  return say([homeWords(plan), quickestWords(plan)].filter(Boolean).join(" "), givenNames(plan));
}

function homeWords(plan: FlushPlan): string {
  const [best] = plan.pistons_home.toSorted((one, other) => other.saves_ml.p50 - one.saves_ml.p50);
  if (best === undefined) return "";
  const verb = best.done ? "saved" : "would save";
  return `Pistons home first ${verb} ${bandAmount(best.saves_ml, "ml")} at the ${best.at}.`;
}

function quickestWords(plan: FlushPlan): string {
  const allowed = plan.methods.filter((one) => one.allowed);
  const [quickest] = allowed.toSorted((one, other) => one.minutes.p50 - other.minutes.p50);
  if (quickest === undefined) return "";
  const name = METHOD_WORDS[quickest.method].toLowerCase();
  return asSentence(`quickest: ${name}, ${bandRange(quickest.minutes)} minutes`);
}

/** After how much each screw runs new. */
export function comesOutGist(plan: FlushPlan): string {
  const each = plan.points.map((point) => `${bandAmount(point.volume_ml, "ml")} at the ${point.at}`);
  return say(`${plain(100 * plan.target)} % new after ${each.join(", ")}.`, givenNames(plan));
}

/** The measurement that would help most. */
export function narrowGist(plan: FlushPlan, scene: Named): string {
  const [first] = plan.narrow;
  if (first === undefined) return "";
  const owner = ownerWords(ownerOf(first.name), scene);
  const what = owner ? `${owner}, ${first.words}` : first.words;
  return say(`Most, ${span(first.per_cent, first.per_cent)} % of the spread: ${what}.`, givenNames(plan));
}

/** How much had to be assumed, and on how many sources the figures stand. */
export function groundsGist(plan: FlushPlan): string {
  const { assumed, sources } = plan;
  return `${counted(assumed.length, "quantity", "quantities")} assumed, ${counted(sources.length, "source", "sources")}.`;
}

function counted(count: number, one: string, more: string): string {
  return `${count} ${count === 1 ? one : more}`;
}
