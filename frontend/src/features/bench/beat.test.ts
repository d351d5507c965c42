// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { describe, expect, test } from "vitest";

import { beatsOf, momentAt, staysOpen } from "./beat";

const MOVES = { "close before release": 6, "half turn and wait": 6, "one-way tube": 3, "open tube under fluid": 3 };

describe("the rhythm of a stroke", () => {
  test.each(Object.entries(MOVES))("%s lasts as long as it should and brings the lever home", (technique, many) => {
    const beats = beatsOf(technique, 10);
    expect(beats).toHaveLength(many);
    expect(beats.reduce((sum, beat) => sum + beat.seconds, 0)).toBeCloseTo(10, 9);
    expect(beats.at(-1)?.lever[1]).toBe(beats[0]?.lever[0]);
    // Each beat takes the lever up where the one before left it.
    beats.slice(1).forEach((beat, place) => expect(beat.lever[0]).toBe(beats[place]?.lever[1]));
  });

  test("the screw is shut before the lever is let back, where it is opened at every stroke", () => {
    const beats = beatsOf("close before release", 10);
    expect(beats.filter((beat) => beat.isOpen).map((beat) => beat.move)).toEqual(["open", "follow"]);
    expect(staysOpen("close before release")).toBe(false);
    expect(staysOpen("one-way tube")).toBe(true);
  });

  test("a moment tells the strokes done, the beat, and how far the lever is in", () => {
    // derived: pull takes the first fifth of ten seconds and brings the lever to 0.45
    const beats = beatsOf("close before release", 10);
    expect(momentAt(beats, 0)).toMatchObject({ done: 0, place: 0, lever: 0 });
    expect(momentAt(beats, 1).lever).toBeCloseTo(0.225, 9);
    expect(momentAt(beats, 21)).toMatchObject({ done: 2, place: 0 });
    expect(momentAt(beats, 19.9).beat.move).toBe("wait");
  });
});
