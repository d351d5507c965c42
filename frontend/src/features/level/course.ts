// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The level above MIN at each look, counted back from the last, and where wear would have it. */
import type { LevelReport } from "../../api/looks";

export interface CoursePoint {
  readonly on: string;
  readonly day: number;
  readonly seen: number;
  readonly low: number;
  readonly high: number;
}

const DAY_MS = 86_400_000;

export function coursesOf({ between, above_min_ml: now }: LevelReport): readonly CoursePoint[] {
  const [first] = between;
  if (first === undefined) return [];
  const start = between.reduce((level, one) => level + one.fell_ml.p50, now.p50);
  const point = (on: string, seen: number, low: number, high: number): CoursePoint => ({
    on,
    day: Date.parse(on) / DAY_MS,
    seen,
    low,
    high,
  });
  let [seen, low, high] = [start, start, start];
  const points = [point(first.start, seen, low, high)];
  for (const one of between) {
    seen -= one.fell_ml.p50;
    const rest = one.topped_up_ml + one.warmth_ml.p50;
    low += rest - one.drawn_ml.p95;
    high += rest - one.drawn_ml.p05;
    points.push(point(one.end, seen, low, high));
  }
  return points;
}
