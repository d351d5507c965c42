// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The coming millilitres at a screw, cut into layers that can be drawn. */
import type { Strip } from "../api/plan";

export const NEW = "new";
/** What a dry way gives before the new fluid. */
export const AIR = "air";
export const REST = "the rest";
const MOST_SLICES = 60;
const SEEN_SHARE = 0.04;

export interface Slice {
  readonly from: number;
  readonly to: number;
  /** Share of each origin, in the order of the layers. */
  readonly shares: readonly number[];
}

export interface Layers {
  readonly origins: readonly string[];
  readonly slices: readonly Slice[];
  /** Millilitres of each origin in all that comes out. */
  readonly ml: readonly number[];
  readonly totalMl: number;
}

/** Join slices until at most sixty are left, and origins that never show into one. */
export function layersOf(strip: Strip): Layers {
  const every = Math.max(1, Math.ceil(strip.shares.length / MOST_SLICES));
  const joined: number[][] = [];
  for (let first = 0; first < strip.shares.length; first += every) {
    joined.push(meanOf(strip.shares.slice(first, first + every), strip.origins.length));
  }
  const seen = strip.origins.map((_, column) => joined.some((slice) => (slice[column] ?? 0) >= SEEN_SHARE));
  const isAnyHidden = strip.origins.some((_, column) => seen[column] !== true && hasAny(joined, column));
  const shown = strip.origins.flatMap((name, column) => (seen[column] === true ? [{ name, column }] : []));
  const old = shown.filter((one) => one.name !== NEW);
  const fresh = shown.filter((one) => one.name === NEW);
  const origins = [...old.map((one) => one.name), ...(isAnyHidden ? [REST] : []), ...fresh.map((one) => one.name)];
  const step = strip.slice_ml * every;
  const totalMl = strip.slice_ml * strip.shares.length;
  const slices = joined.map((slice, place) => {
    const known = (list: typeof shown): number[] => list.map((one) => slice[one.column] ?? 0);
    const rest = Math.max(0, 1 - sum(known(shown)));
    return {
      from: place * step,
      to: Math.min((place + 1) * step, totalMl),
      shares: [...known(old), ...(isAnyHidden ? [rest] : []), ...known(fresh)],
    };
  });
  const ml = origins.map((_, layer) => sum(slices.map((slice) => (slice.shares[layer] ?? 0) * (slice.to - slice.from))));
  return { origins, slices, ml, totalMl };
}

function meanOf(rows: readonly (readonly number[])[], columns: number): number[] {
  return Array.from({ length: columns }, (_, column) => sum(rows.map((row) => row[column] ?? 0)) / rows.length);
}

function hasAny(rows: readonly (readonly number[])[], column: number): boolean {
  return rows.some((row) => (row[column] ?? 0) > 0);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** A place to lay the layers out: the first millilitre at the bottom, shares from left to right. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The outline of one layer as a stepped path. */
export function layerPath(layers: Layers, layer: number, box: Box): string {
  const [left, right]: [string[], string[]] = [[], []];
  for (const slice of layers.slices) {
    const before = sum(slice.shares.slice(0, layer));
    const after = before + (slice.shares[layer] ?? 0);
    const ends = [slice.from, slice.to].map((ml) => yOf(layers, ml, box));
    left.push(...ends.map((y) => `${round(box.x + before * box.width)} ${y}`));
    right.push(...ends.map((y) => `${round(box.x + after * box.width)} ${y}`));
  }
  return `M${[...left, ...right.toReversed()].join("L")}Z`;
}

/** Where a word fits on a layer: in the middle of its widest slice. */
export function widestPlace(layers: Layers, layer: number, box: Box): { x: number; y: number; width: number } {
  const best = layers.slices.reduce(
    (most, slice) => ((slice.shares[layer] ?? 0) > (most.shares[layer] ?? 0) ? slice : most),
    layers.slices[0] ?? { from: 0, to: 0, shares: [] },
  );
  const before = sum(best.shares.slice(0, layer));
  const share = best.shares[layer] ?? 0;
  return {
    x: round(box.x + (before + share / 2) * box.width),
    y: yOf(layers, (best.from + best.to) / 2, box),
    width: share * box.width,
  };
}

export function yOf(layers: Layers, ml: number, box: Box): number {
  return round(box.y + box.height * (1 - (layers.totalMl > 0 ? ml / layers.totalMl : 0)));
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
