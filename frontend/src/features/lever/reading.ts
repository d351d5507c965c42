// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** From typed pairs to readings in newtons and millimetres, and faults to the row they are at. */
import { readTyped } from "../../answering/typed";
import type { Hold, ReadingSet } from "../../api/levers";
import type { LeverDraft, LeverRow, LeverSet } from "../../drafts";
import type { Problem } from "../../lib/request";
import { fromShown, newtonsOf, onScale, toShown, type Measures, type Scale } from "../../lib/units";
import { isHold, SETS } from "./sets";

/** Where a row stands: which set, which line of it. */
export interface Place {
  readonly set: number;
  readonly row: number;
}

export interface Fault extends Place {
  readonly words: string;
}

export interface Gathered {
  readonly sets: readonly ReadingSet[];
  readonly holds: readonly Hold[];
  /** Where each row that is sent stands, in the order of the rows sent. */
  readonly places: readonly Place[];
  readonly faults: readonly Fault[];
}

/** A firm pull that a hand can keep for a minute (judgement). */
const USUAL_HOLD_N = 100;

const RULER_MM = 1;

export const BLANK: LeverRow = { at: "", travel: "" };

export function newDraft(scale: Scale, measures: Measures): LeverDraft {
  const kinds = ["first", "pumped", "wedged", "hold", "hold fast"] as const;
  const sets = kinds.map((kind) => ({ kind, held: isHold(kind) ? written(onScale(USUAL_HOLD_N, scale)) : "", rows: [BLANK] }));
  return { id: null, scale, measures, sets, ruler: written(toShown(RULER_MM, "mm", measures)), altitude: "0", against: null };
}

/** "First pull", and of a further one of its kind "First pull 2". */
export function nameOf(sets: readonly LeverSet[], place: number): string {
  const kind = sets[place]?.kind ?? "first";
  const turn = sets.slice(0, place + 1).filter((one) => one.kind === kind).length;
  return turn === 1 ? SETS[kind].name : `${SETS[kind].name} ${turn}`;
}

export function isBlank({ at, travel }: LeverRow): boolean {
  return at.trim() === "" && travel.trim() === "";
}

export function rowsIn(set: LeverSet): number {
  return set.rows.filter((row) => !isBlank(row)).length;
}

/** A plain figure with a point or a comma; null where it is none. */
export function figureIn(text: string): number | null {
  const typed = readTyped(text);
  return typed === null || typed.unit !== null ? null : typed.value;
}

/** A row as force or seconds and millimetres, where both its figures can be read. */
export function readRow(set: LeverSet, row: LeverRow, scale: Scale, measures: Measures): Pair | null {
  const [at, travel] = [figureIn(row.at), figureIn(row.travel)];
  if (at === null || travel === null) return null;
  return [isHold(set.kind) ? at : tidy(newtonsOf(at, scale)), tidy(fromShown(travel, "mm", measures))];
}

type Pair = readonly [at: number, travelMm: number];

interface Read {
  readonly set: LeverSet;
  readonly pairs: readonly Pair[];
  readonly places: readonly Place[];
  readonly faults: readonly Fault[];
}

/** All that was typed; rows left blank are passed over. Holds are sent after the pulls. */
export function gathered(draft: LeverDraft): Gathered {
  const read = draft.sets.map((set, at) => readSet(draft, set, at)).filter(({ places }) => places.length > 0);
  const pulls = read.filter(({ set }) => !isHold(set.kind));
  const held = read.filter(({ set }) => isHold(set.kind));
  return {
    sets: pulls.flatMap(({ set: { kind }, pairs }) =>
      kind === "hold" || kind === "hold fast"
        ? []
        : [{ kind, force_n: pairs.map(([at]) => at), travel_mm: pairs.map(([, travel]) => travel) }],
    ),
    holds: held.map(({ set, pairs }) => ({
      pace: set.kind === "hold fast" ? ("fast" as const) : ("slow" as const),
      force_n: tidy(newtonsOf(figureIn(set.held) ?? 0, draft.scale)),
      seconds: pairs.map(([at]) => at),
      travel_mm: pairs.map(([, travel]) => travel),
    })),
    places: [...pulls, ...held].flatMap(({ places }) => places),
    faults: read.flatMap(({ faults }) => faults),
  };
}

function readSet(draft: LeverDraft, set: LeverSet, at: number): Read {
  const typed = set.rows.flatMap((row, line) => (isBlank(row) ? [] : [{ row, place: { set: at, row: line } }]));
  const pairs = typed.map(({ row }) => readRow(set, row, draft.scale, draft.measures));
  const faults = typed.flatMap(({ row, place }, which) =>
    pairs[which] === null ? [{ ...place, words: missingIn(set, row) }] : [],
  );
  const [first] = typed;
  const unheld = isHold(set.kind) && figureIn(set.held) === null && first !== undefined;
  return {
    set,
    pairs: pairs.map((pair) => pair ?? [0, 0]),
    places: typed.map(({ place }) => place),
    faults: unheld ? [{ ...first.place, words: "The force of this hold is missing: it stands above." }, ...faults] : faults,
  };
}

function missingIn({ kind }: LeverSet, { at, travel }: LeverRow): string {
  if (at.trim() === "") return `The ${isHold(kind) ? "seconds" : "force"} of this row ${isHold(kind) ? "are" : "is"} missing.`;
  if (travel.trim() === "") return "The travel of this row is missing.";
  const bad = figureIn(at) === null ? at : travel;
  return `“${bad.trim()}” is no figure. Write it like 12 or 12.5.`;
}

/** What the server said against rows, at the rows; `ahead` rows of an earlier test were sent before them. */
export function faultsOf(
  problems: readonly Problem[],
  places: readonly Place[],
  ahead: number,
): { readonly rows: readonly Fault[]; readonly whole: readonly string[] } {
  const rows: Fault[] = [];
  const whole: string[] = [];
  for (const problem of problems) {
    const place = places[problem.line - 1 - ahead];
    const words = wordsOf(problem);
    if (place === undefined) whole.push(words);
    else rows.push({ ...place, words });
  }
  return { rows, whole };
}

function wordsOf({ place, found, allowed }: Problem): string {
  if (place === "force_n") return `Force: ${allowed} N goes here.`;
  if (place === "seconds") return `Seconds: ${allowed} goes here.`;
  if (place === "travel_mm") return `Travel: ${allowed} mm goes here.`;
  const said = `${found}; ${allowed}.`;
  return said.charAt(0).toUpperCase() + said.slice(1);
}

/** The same readings, typed in other units. */
export function inUnits(draft: LeverDraft, scale: Scale, measures: Measures): LeverDraft {
  if (draft.scale === scale && draft.measures === measures) return draft;
  const force = (newtons: number): number => onScale(newtonsOf(newtons, draft.scale), scale);
  const length = (value: number): number => toShown(fromShown(value, "mm", draft.measures), "mm", measures);
  return {
    ...draft,
    scale,
    measures,
    ruler: rewritten(draft.ruler, length),
    sets: draft.sets.map((set) => ({
      ...set,
      held: draft.scale === scale ? set.held : rewritten(set.held, force),
      rows: set.rows.map((row) => ({
        at: draft.scale === scale || isHold(set.kind) ? row.at : rewritten(row.at, force),
        travel: draft.measures === measures ? row.travel : rewritten(row.travel, length),
      })),
    })),
  };
}

function rewritten(text: string, convert: (value: number) => number): string {
  const value = figureIn(text);
  return value === null ? text : written(convert(value));
}

function written(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** Without the dust that binary arithmetic leaves. */
function tidy(value: number): number {
  return Number(value.toPrecision(6));
}

/** Rows with a blank one after the last that is begun, so that the next is always open. */
export function withNext(rows: readonly LeverRow[]): readonly LeverRow[] {
  const last = rows.at(-1);
  return last === undefined || !isBlank(last) ? [...rows, BLANK] : rows;
}
