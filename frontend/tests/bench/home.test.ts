// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Taps that come home as a file. */
import { expect, test } from "vitest";

import type { BenchEvent } from "../../src/bench/event";
import { bringHome, openTaps, readTaps } from "../../src/features/bench/home";
import type { Keeper } from "../../src/features/bench/keeper";
import { done, failed } from "../../src/lib/result";
import { batchesOf } from "../../src/outbox/batches";
import { log } from "./bench";

const events = log([{ kind: "paused" }, { kind: "resumed" }, { kind: "note", text: "ä" }]);
const file = (change: object = {}): string =>
  JSON.stringify({ format: 1, kind: "bench queue", job: "job-1", events, refused: [], ...change });

/** A laptop that keeps each event once and refuses some; it can go away after so many batches. */
function laptop(kept: readonly BenchEvent[], how: { refuses?: readonly string[]; goesAfter?: number } = {}) {
  const store = new Map(kept.map((event) => [event.id, event]));
  const batches: number[] = [];
  const keeper: Keeper = {
    carried: null,
    job: async () => failed({ kind: "unreachable" }),
    after: async () => done({ events: [...store.values()], arrival: store.size }),
    send: async (_job, sent) => {
      if (batches.length === how.goesAfter) return failed({ kind: "unreachable" });
      batches.push(sent.length);
      const all = sent as readonly BenchEvent[];
      const refused = all.filter((event) => how.refuses?.includes(event.id));
      const taken = all.filter((event) => !refused.includes(event));
      taken.forEach((event) => store.set(event.id, event));
      return done({
        accepted: taken.map((event) => event.id),
        refused: refused.map((event) => ({ id: event.id, why: "other content" })),
        arrival: store.size,
      });
    },
  };
  return { keeper, batches, store };
}

const taps = (all: readonly BenchEvent[]) => ({ job: "job-1", events: all, barred: [] });

test("a file is read with its job and its taps", () => {
  expect(readTaps(file())).toEqual({ ok: true, value: { job: "job-1", events, barred: [] } });
});

test.each([
  ["", "It holds no taps."],
  ["no json", "It holds no taps."],
  ["null", "It holds no taps."],
  ["[1]", "It holds no taps."],
  [file({ kind: "job sheet" }), "It holds no taps."],
  [file({ format: 2 }), "It was saved by another version of the page."],
  [file({ format: "1" }), "It was saved by another version of the page."],
  [file({ job: 7 }), "It is damaged: job should be a text and is 7."],
  [file({ events: {} }), "It is damaged: events should be a list and is an object."],
  [file({ events: Array.from({ length: 20_001 }, () => 0) }), "It holds 20001 taps, and a job never has more than 20000."],
])("%.60s brings nothing and says why", (content, why) => {
  const found = readTaps(content);
  expect(found.ok ? "" : found.reason).toContain(why);
});

test("an entry that is no tap keeps no other back", () => {
  const odd = { ...events[0], id: "odd", kind: "exploded" };
  const found = readTaps(file({ events: [events[1], odd, 7] }));
  if (!found.ok) throw new Error(found.reason);
  expect(found.value.events).toEqual([events[1]]);
  expect(found.value.barred.map((one) => one.id)).toEqual(["odd", "an entry without a name"]);
  expect(found.value.barred[0]?.why).toContain("Not understood: ");
});

test("a file that is far too large is not read at all", async () => {
  const large = new File(["x".repeat(4_000_001)], "film.json");
  const found = await openTaps(large);
  expect(found.ok ? "" : found.reason).toContain("It has 4.0 MB, and a job's taps never fill more than 4.");
});

test("what is new is told from what was there; twice changes nothing", async () => {
  const { keeper, store } = laptop(events.slice(0, 1));
  const first = await bringHome(taps(events), keeper);
  expect(first).toEqual(done({ fresh: 2, there: 1, refused: [], left: 0, stopped: null }));
  const again = await bringHome(taps(events), keeper);
  expect(again).toEqual(done({ fresh: 0, there: 3, refused: [], left: 0, stopped: null }));
  expect([...store.values()]).toEqual(events);
});

test("a refused tap is named with its reason, and so is one that could not be read", async () => {
  const [first, second, third] = events.map((event) => event.id);
  const { keeper } = laptop([], { refuses: [second ?? ""] });
  const odd = { id: "odd", why: "Not understood: x." };
  const found = await bringHome({ ...taps(events), barred: [odd] }, keeper);
  expect([first, third]).not.toContain(second);
  expect(found).toEqual(
    done({
      fresh: 2,
      there: 0,
      refused: [odd, { id: second, why: "Another tap was kept under the same id. The first one stays." }],
      left: 0,
      stopped: null,
    }),
  );
});

test("a long job comes in pieces; where the laptop goes away between, the rest is told", async () => {
  const many = log(Array.from({ length: 450 }, () => ({ kind: "paused" }) as const));
  const whole = laptop([]);
  expect(await bringHome(taps(many), whole.keeper)).toMatchObject({ value: { fresh: 450, left: 0 } });
  expect(whole.batches).toEqual([200, 200, 50]);
  const cut = laptop([], { goesAfter: 2 });
  expect(await bringHome(taps(many), cut.keeper)).toEqual(
    done({ fresh: 400, there: 0, refused: [], left: 50, stopped: { kind: "unreachable" } }),
  );
});

test("a laptop that is away from the start brings nothing", async () => {
  const { keeper } = laptop([]);
  const away: Keeper = { ...keeper, after: async () => failed({ kind: "unreachable" }) };
  expect(await bringHome(taps(events), away)).toEqual(failed({ kind: "unreachable" }));
});

test("no piece is larger than the server takes, and none is lost or turned round", () => {
  const notes = log(Array.from({ length: 300 }, () => ({ kind: "note", text: "ß".repeat(500) }) as const));
  const pieces = batchesOf(notes);
  expect(pieces.flat()).toEqual(notes);
  const sizes = pieces.map((piece) => new TextEncoder().encode(JSON.stringify({ events: piece })).length);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(64_000);
  expect(pieces.length).toBeLessThan(10);
});
