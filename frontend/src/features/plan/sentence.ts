// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What a plan says in a mechanic's words. Texts are British; the screen says them. */
import type { Scene } from "../../api/circuits";
import type { Fill, FlushPlan } from "../../api/plan";
import { bandAmount, dayShown, middleAmount } from "../../display";
import { capital } from "../../lib/words";
import { bandMiddle, bandRange, inPerCent, perCent, plain } from "../../lib/figures";

/** The headline in pieces: the large figure, its band, the words after them. */
export interface Headline {
  readonly figure: string;
  readonly band: string;
  readonly sentence: string;
}

/** What is needed of a drawing to name its parts; a plan without a drawing has no parts here. */
export interface Named {
  readonly parts: readonly Pick<Scene["parts"][number], "owner" | "kind">[];
}

export const NO_DRAWING: Named = { parts: [] };

const MOST = 0.5;
const WHEEL_ENDS = ["caliper", "slave cylinder"];

export function headlineOf(plan: FlushPlan, scene: Named): Headline {
  return plan.fill ? fillHeadline(plan, plan.fill) : flushHeadline(plan, scene);
}

function fillHeadline(plan: FlushPlan, fill: Fill): Headline {
  const [middle, ends] = [middleAmount(fill.volume_ml, "ml"), bandAmount(fill.volume_ml, "ml")];
  return {
    figure: middle,
    band: middle === ends ? "" : ends,
    sentence: `fill it dry, the reservoir with it; ${bandAmount(plan.through_ml, "ml")} go in until no bubbles come.`,
  };
}

function flushHeadline(plan: FlushPlan, scene: Named): Headline {
  const whole = inPerCent(plan.left_old.whole);
  const [middle, ends] = [bandMiddle(whole), bandRange(whole)];
  const after = `riding evens ${wheelEnd(scene)} out to ${perCent(plan.left_old.after_mixing)}`;
  return {
    figure: `${middle} %`,
    band: middle === ends ? "" : ends,
    sentence: `stays old${where(plan, scene)}; ${after}.`,
  };
}

/** What is done to which circuit. */
export function workWords(work: FlushPlan["work"], circuit: string): string {
  return `${work} the ${circuit} circuit`;
}

/** Name the part that holds most of the old fluid, or at least more than any other. */
function where(plan: FlushPlan, scene: Named): string {
  const old = Object.entries(plan.left_old.parts_ml).map(([name, band]) => ({ name, ml: band.p50 }));
  const all = old.reduce((sum, one) => sum + one.ml, 0);
  const first = old.reduce((most, one) => (one.ml > most.ml ? one : most), { name: "", ml: 0 });
  if (first.ml <= 0) return "";
  const share = first.ml > MOST * all ? "most" : "much";
  return `, ${share} of it in the ${spoken(first.name, scene)}`;
}

/** Name a part by its kind where there is only one, else as its owner did. */
export function spoken(owner: string, scene: Named): string {
  const part = scene.parts.find((one) => one.owner === owner);
  if (part === undefined) return lineWords(owner);
  if (scene.parts.filter((one) => one.kind === part.kind).length > 1) return owner;
  return part.kind === "modulator" ? "ABS unit" : part.kind;
}

function wheelEnd(scene: Named): string {
  const ends = scene.parts.filter((one) => WHEEL_ENDS.includes(one.kind));
  const kind = ends[0]?.kind;
  if (kind === undefined) return "it";
  return ends.length > 1 ? `the ${kind}s` : `the ${kind}`;
}

/** Why the screws come in this order, and what the other one would cost. */
export function orderWords(plan: FlushPlan, difference: string): string {
  const { reason, difference_ml: more, either } = plan.order;
  if (either) return `${reason}; either order would do, they differ by ${difference}`;
  if (more === 0) return reason;
  return `${reason}; the other way round takes ${difference} ${more > 0 ? "more" : "less"}`;
}

/** What a change did to the figure people look at: "12 % (6–22) is now 12 % (6–19)". */
export function changeWords(before: FlushPlan, now: FlushPlan): string {
  if (before.work !== now.work) return `This is now a ${now.work}; before, it was a ${before.work}.`;
  const [old, fresh] = [mainFigure(before), mainFigure(now)];
  const [slow, quick] = [bandRange(before.minutes), bandRange(now.minutes)];
  const [verb, be] = now.fill ? ["fill it", "are"] : ["stays old", "is"];
  const stays = old === fresh ? `${fresh} ${verb}, as before` : `${old} ${be} now ${fresh}`;
  const time = slow === quick ? "" : `; ${slow} minutes are now ${quick}`;
  return `${stays}${time}.`;
}

function mainFigure(plan: FlushPlan): string {
  return plan.fill ? bandAmount(plan.fill.volume_ml, "ml") : perCent(plan.left_old.whole);
}

/** The names people gave, which no word set may change. */
export function givenNames(plan: FlushPlan): readonly string[] {
  return [
    plan.bike,
    plan.circuit,
    ...plan.points.flatMap((point) => [point.at, point.part]),
    ...Object.keys(plan.left_old.parts),
    ...(plan.fill?.steps.map((step) => step.at) ?? []),
    ...plan.assumed.map((one) => one.name),
    ...plan.narrow.map((one) => one.name),
  ];
}

/** Whom a quantity belongs to: "left caliper" of "left caliper/unswept_ml". */
export function ownerOf(name: string): string {
  return name.slice(0, Math.max(0, name.lastIndexOf("/")));
}

/** The same in words: "line from master to abs unit". */
export function ownerWords(owner: string, scene: Named): string {
  if (owner.startsWith("screw:")) return `screw on the ${owner.slice("screw:".length)}`;
  return spoken(owner, scene);
}

function lineWords(owner: string): string {
  const [start, end] = owner.split(" > ");
  return end === undefined ? owner : `line from ${start} to ${end}`;
}

/** A sentence from a piece of text. */
export function asSentence(text: string): string {
  const full = capital(text);
  return /[.!?]$/.test(full) ? full : `${full}.`;
}

/** How it is done, with what, how far, and when. */
export function wayWords(plan: FlushPlan): string {
  const home = plan.pistons_home_first ? ", pistons home first" : "";
  const day = dayShown(plan.on);
  const until = plan.fill ? "each step until no bubbles come" : `each screw until ${plain(100 * plan.target)} % new`;
  return `by ${plan.method} (${plan.technique})${home} · ${plan.fluid} · ${until} · ${day}`;
}

export function spanner(hexMm: number | null): string {
  return hexMm === null ? "size not known" : `${plain(hexMm)} mm`;
}
