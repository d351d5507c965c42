// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What stands inside a carried page is read strictly, and nobody answers there. */
import { expect, test } from "vitest";

import type { Job } from "../../src/api/jobs";
import { pageKeeper, readCarried } from "../../src/carried/document";
import { openSession } from "../../src/features/bench/session";
import { atFirstScrew, log, sheetNamed } from "../bench/bench";

const sheet = sheetNamed("skerry-front");
const events = log(atFirstScrew(sheet));
const job: Job = {
  id: "job-1",
  machine_id: "m",
  machine_revision: 1,
  made_at: "2026-05-01T09:00:00Z",
  sheet,
  events: [...events],
  arrival: events.length,
};
const level = { name: "carried page", words: "One file.", lacks: [{ code: "by hand", words: "Bring it home." }] };
const whole = { kind: "carried job", format: 1, level, job };

const read = (change: object = {}): ReturnType<typeof readCarried> => readCarried(JSON.stringify({ ...whole, ...change }));

test("a whole document gives its job and its level", () => {
  const found = read();
  expect(found.ok && [found.value.job.id, found.value.job.events.length, found.value.level]).toEqual([
    "job-1",
    events.length,
    level,
  ]);
});

test.each([
  [null, "the page holds no job, or was cut short"],
  [undefined, "the page holds no job, or was cut short"],
  ['{"kind":"carried job"', "the page holds no job, or was cut short"],
  ["[]", "the answer should be an object and is a list"],
])("%s is no job", (content, why) => {
  expect(readCarried(content)).toEqual({ ok: false, reason: why });
});

test.each([
  [{ kind: "job" }, 'kind should be one of carried job and is "job"'],
  [{ format: 2 }, "format should be one of 1 and is 2"],
  [{ level: null }, "level should be an object and is null"],
  [{ job: { ...job, events: {} } }, "job.events should be a list and is an object"],
  [{ job: { ...job, sheet: { ...sheet, points: 3 } } }, "job.sheet.points should be a list and is 3"],
])("a document with %o is told", (change, why) => {
  expect(read(change)).toEqual({ ok: false, reason: why });
});

test("a tap on the page is kept and waits, since nobody ever takes it", async () => {
  const opened = await openSession("job-1", { who: "Cy", device: "phone" }, pageKeeper({ job, level }));
  if (!opened.ok) throw new Error("the job did not open");
  const session = opened.value;
  expect(session.carried).toBe(level);
  expect(session.state.value.point).toBe(0);
  session.write({ kind: "set_done", point: 0, count: 5 });
  expect(session.state.value.turns[0]?.count).toBe(5);
  await session.outbox.flush();
  expect(session.standing.value).toMatchObject({ queued: 1, reachable: false, refused: [] });
  const saved: { events: readonly unknown[] } = JSON.parse(await session.outbox.exported());
  expect(saved.events).toHaveLength(1);

  const again = await openSession("job-1", { who: "Cy", device: "phone" }, pageKeeper({ job, level }));
  expect(again.ok && again.value.state.value.turns[0]?.count).toBe(5);
});
