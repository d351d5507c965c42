// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { Scene } from "../api/circuits";

import { heightText } from "./told";

export type Point = Scene["lines"][number]["points"][number];
export type ScenePart = Scene["parts"][number];

const CORNER = 18;
const HEX_RADIUS = 11;
const CORNERS: Readonly<Partial<Record<ScenePart["shape"], number>>> = {
  pot: 3,
  cylinder: 6,
  box: 2,
  caliper: 14,
  stub: 4,
};

function toward(start: Point, end: Point, by: number): Point {
  const length = Math.hypot(end[0] - start[0], end[1] - start[1]) || 1;
  return [start[0] + ((end[0] - start[0]) * by) / length, start[1] + ((end[1] - start[1]) * by) / length];
}

function lengthOf(start: Point, end: Point): number {
  return Math.hypot(end[0] - start[0], end[1] - start[1]);
}

/** A run of points as path data, its corners rounded as far as its stretches allow. */
export function rounded(points: readonly Point[]): string {
  const [first, ...others] = points;
  if (first === undefined) return "";
  let path = `M${first[0]} ${first[1]}`;
  let before = first;
  others.forEach((corner, index) => {
    const after = others[index + 1];
    if (after === undefined) {
      path += `L${corner[0]} ${corner[1]}`;
      return;
    }
    const bend = Math.min(CORNER, lengthOf(before, corner) / 2, lengthOf(corner, after) / 2);
    const start = toward(corner, before, bend);
    const end = toward(corner, after, bend);
    path += `L${start[0]} ${start[1]}Q${corner[0]} ${corner[1]} ${end[0]} ${end[1]}`;
    before = corner;
  });
  return path;
}

/** The corners of a hexagon around a point. */
export function hexagon([x, y]: Point): string {
  return Array.from({ length: 6 }, (_, corner) => {
    const angle = (corner * Math.PI) / 3;
    return `${x + HEX_RADIUS * Math.sin(angle)},${y + HEX_RADIUS * Math.cos(angle)}`;
  }).join(" ");
}

/** The box of a part, drawn in by so much on every side. */
export function boxOf(part: ScenePart, inset = 0) {
  const corner = (CORNERS[part.shape] ?? part.height / 2) - inset;
  return {
    x: part.x + inset,
    y: part.y + inset,
    width: part.width - 2 * inset,
    height: part.height - 2 * inset,
    rx: Math.max(corner, 1),
  };
}

/** Heights as they stand at the marks; the highest short one carries the unit. */
export function markTexts(marks: Scene["marks"]): readonly string[] {
  const unitAt = marks.findLastIndex((mark) => mark.height_mm % 100 === 0);
  return marks.map((mark, index) => heightText(mark.height_mm, index === unitAt));
}

/** The steps in which each screw is worked, as its hexagon shows them. */
export function stepsOf(order: readonly string[]): ReadonlyMap<string, string> {
  const steps = new Map<string, string>();
  order.forEach((screw, index) => {
    const before = steps.get(screw);
    steps.set(screw, before === undefined ? `${index + 1}` : `${before}·${index + 1}`);
  });
  return steps;
}
