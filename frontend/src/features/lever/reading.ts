// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** From typed pairs to readings in newtons and millimetres, and faults to the row they are at. */
import { readTyped } from "../../answering/typed";
import type { ReadingSet } from "../../api/levers";
import type { LeverDraft, LeverRow, LeverSet } from "../../drafts";
import type { Problem } from "../../lib/request";
import { fromShown, newtonsOf, onScale, toShown, type Measures, type Scale } from "../../lib/units";
import { SETS } from "./sets";

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
  /** Where each row that is sent stands, in the order of the rows sent. */
  readonly places: readonly Place[];
  readonly faults: readonly Fault[];
}

export const BLANK: LeverRow = { force: "", travel: "" };

export function newDraft(scale: Scale, measures: Measures): LeverDraft {
  const sets = (["first", "pumped", "wedged"] as const).map((kind) => ({ kind, rows: [BLANK] }));
  return { id: null, scale, measures, sets, ruler: "1", altitude: "0", against: null };
}

/** "First pull", and of a further one of its kind "First pull 2". */
export function nameOf(sets: readonly LeverSet[], place: number): string {
  const kind = sets[place]?.kind ?? "first";
  const turn = sets.slice(0, place + 1).filter((one) => one.kind === kind).length;
  return turn === 1 ? SETS[kind].name : `${SETS[kind].name} ${turn}`;
}

export function isBlank({ force, travel }: LeverRow): boolean {
  return force.trim() === "" && travel.trim() === "";
}

export function rowsIn(set: LeverSet): number {
  return set.rows.filter((row) => !isBlank(row)).length;
}

/** A plain figure with a point or a comma; null where it is none. */
export function figureIn(text: string): number | null {
  const typed = readTyped(text);
  return typed === null || typed.unit !== null ? null : typed.value;
}

/** A row as readings, where both its figures can be read. */
export function readRow(row: LeverRow, scale: Scale, measures: Measures): readonly [number, number] | null {
  const [force, travel] = [figureIn(row.force), figureIn(row.travel)];
  if (force === null || travel === null) return null;
  return [tidy(newtonsOf(force, scale)), tidy(fromShown(travel, "mm", measures))];
}

/** All that was typed; rows left blank are passed over. */
export function gathered(draft: LeverDraft): Gathered {
  const { scale, measures } = draft;
  const places: Place[] = [];
  const faults: Fault[] = [];
  const sets = draft.sets.flatMap((set, at) => {
    const pairs = set.rows.flatMap((row, line) => {
      if (isBlank(row)) return [];
      const place = { set: at, row: line };
      const pair = readRow(row, scale, measures);
      if (pair === null) faults.push({ ...place, words: missingIn(row) });
      places.push(place);
      return [pair ?? ([0, 0] as const)];
    });
    if (pairs.length === 0) return [];
    return [{ kind: set.kind, force_n: pairs.map(([force]) => force), travel_mm: pairs.map(([, travel]) => travel) }];
  });
  return { sets, places, faults };
}

function missingIn({ force, travel }: LeverRow): string {
  if (force.trim() === "") return "The force of this row is missing.";
  if (travel.trim() === "") return "The travel of this row is missing.";
  const bad = figureIn(force) === null ? force : travel;
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
      rows: set.rows.map((row) => ({
        force: draft.scale === scale ? row.force : rewritten(row.force, force),
        travel: draft.measures === measures ? row.travel : rewritten(row.travel, length),
      })),
    })),
  };
}

function rewritten(text: string, convert: (value: number) => number): string {
  const value = figureIn(text);
  return value === null ? text : String(Number(convert(value).toPrecision(3)));
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
