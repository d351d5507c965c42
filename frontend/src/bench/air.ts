// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Which of the plan's places still hold air, as far as the tube has shown it. */
import type { TurnFacts } from "./facts";
import type { Mark } from "./marks";
import type { AirPlace, JobSheet } from "./sheet";
import { isSettled } from "./stages";
import { FROM_OUTSIDE } from "./tube";

/** A place and whether its air was seen, is still awaited or never showed. */
export interface AirSeen {
  readonly id: string;
  readonly says: "open" | "seen out" | "not seen";
}

/** Bubbles are put down to the place whose air is due nearest to what had come out by then. */
export function airSeen(
  sheet: JobSheet,
  turns: readonly TurnFacts[],
  marks: readonly (readonly Mark[])[],
): readonly AirSeen[] {
  const seen = new Set<string>();
  turns.forEach((turn, index) => {
    if (turn.tube !== null && FROM_OUTSIDE.includes(turn.tube)) return;
    for (const mark of marks[index] ?? []) {
      const place = mark.look === "bubbles" ? nearest(sheet, index, mark.at_ml.p50) : undefined;
      if (place !== undefined) seen.add(place.id);
    }
  });
  return sheet.air.map((place) => ({ id: place.id, says: saysOf(place, turns, seen) }));
}

function nearest(sheet: JobSheet, index: number, outMl: number): AirPlace | undefined {
  let found: AirPlace | undefined;
  let least = 0;
  for (const place of sheet.air) {
    if (place.screw !== index || place.volume_ml === null) continue;
    const off = Math.abs(place.volume_ml.p50 - outMl);
    if (found === undefined || off < least) [found, least] = [place, off];
  }
  return found;
}

function saysOf(place: AirPlace, turns: readonly TurnFacts[], seen: ReadonlySet<string>): AirSeen["says"] {
  if (seen.has(place.id)) return "seen out";
  const turn = place.screw === null ? undefined : turns[place.screw];
  return turn !== undefined && isSettled(turn) ? "not seen" : "open";
}
