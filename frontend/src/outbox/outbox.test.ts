// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test, vi } from "vitest";

import type { Taken } from "../api/jobs";
import type { Failure } from "../lib/request";
import { done, failed, type Result } from "../lib/result";
import { memoryDrawer, type Drawer } from "./drawer";
import { outboxOf, type Standing } from "./outbox";

type Answer = Result<Taken, Failure>;
type Sent = readonly { readonly id: string }[];

const AWAY: Answer = failed({ kind: "unreachable" });
const takenAll = (events: Sent): Answer => done({ accepted: events.map((one) => one.id), refused: [], arrival: 1 });

/** An outbox with a server that answers as told; `told` is how things stand last. */
function bench(answer: (events: Sent) => Answer | Promise<Answer>, drawer: Drawer = memoryDrawer()) {
  const sent: Sent[] = [];
  const told: Standing[] = [];
  const outbox = outboxOf(
    "job",
    drawer,
    async (events) => {
      sent.push(events as Sent);
      return answer(events as Sent);
    },
    { onStanding: (standing) => told.push(standing) },
  );
  return { outbox, sent, drawer, last: () => told.at(-1) };
}

test("a tap is kept first and let go only when the server names it", async () => {
  let answer: (events: Sent) => Answer = () => AWAY;
  const { outbox, drawer, last } = bench((events) => answer(events));
  await outbox.add({ id: "a" }, { id: "b" });
  expect(last()).toMatchObject({ queued: 2, reachable: false });
  answer = (events) => done({ accepted: [events[0]?.id ?? "", "not ours"], refused: [], arrival: 1 });
  await outbox.flush();
  expect(last()).toMatchObject({ queued: 0, reachable: true });
  expect(await drawer.all("job")).toEqual([]);
});

test("a server that names only some is asked for the others, never for ever", async () => {
  const { outbox, sent, last } = bench(() => done({ accepted: [], refused: [], arrival: 1 }));
  await outbox.add({ id: "a" });
  expect(sent).toHaveLength(1);
  expect(last()).toMatchObject({ queued: 1 });
});

test("what the server refuses stays here with its reason, and can be sent again", async () => {
  let isStrict = true;
  const { outbox, last, sent } = bench((events) =>
    isStrict ? done({ accepted: [], refused: events.map(({ id }) => ({ id, why: "other content" })), arrival: 1 }) : takenAll(events),
  );
  await outbox.add({ id: "a" });
  expect(last()).toMatchObject({ queued: 0, refused: [{ id: "a", refused: "other content" }] });
  await outbox.flush();
  expect(sent).toHaveLength(1);
  expect(JSON.parse(await outbox.exported())).toMatchObject({
    kind: "bench queue",
    events: [{ id: "a" }],
    refused: [{ id: "a", why: "other content" }],
  });
  isStrict = false;
  await outbox.retry();
  expect(last()).toMatchObject({ queued: 0, refused: [] });
});

test("one flush runs at a time; a tap meanwhile goes with the next", async () => {
  const gates: (() => void)[] = [];
  const { outbox, sent } = bench(async (events) => {
    if (sent.length === 1) await new Promise<void>((open) => gates.push(open));
    return takenAll(events);
  });
  const first = outbox.add({ id: "a" });
  await vi.waitFor(() => expect(gates).toHaveLength(1));
  const second = outbox.add({ id: "b" });
  await Promise.resolve();
  gates[0]?.();
  await Promise.all([first, second]);
  await outbox.flush();
  expect(sent.map((events) => events.map(({ id }) => id))).toEqual([["a"], ["b"]]);
});

test("no more than two hundred go at once, in the order of their ids", async () => {
  const { outbox, sent, last } = bench(takenAll);
  const ids = Array.from({ length: 450 }, (_, place) => String(1000 + place));
  await outbox.add(...ids.toReversed().map((id) => ({ id })));
  expect(sent.map((events) => events.length)).toEqual([200, 200, 50]);
  expect(sent.flat().map(({ id }) => id)).toEqual(ids);
  expect(last()?.queued).toBe(0);
});

test("a browser that cannot write holds the tap while the page is open, and says so", async () => {
  const full: Drawer = { ...memoryDrawer(), put: () => Promise.reject(new Error("quota")) };
  let answer: (events: Sent) => Answer = () => AWAY;
  const { outbox, last } = bench((events) => answer(events), full);
  await outbox.add({ id: "a" });
  expect(last()).toMatchObject({ queued: 1, unkept: true });
  answer = takenAll;
  await outbox.flush();
  expect(last()).toMatchObject({ queued: 0, unkept: false });
});

test("a full disk at the server is said in its words and the queue stays", async () => {
  const { outbox, last } = bench(() =>
    failed({ kind: "refused", status: 507, error: "disk-full", message: "The disk is full.", problems: [] }),
  );
  await outbox.add({ id: "a" });
  expect(last()).toMatchObject({ queued: 1, reachable: true, trouble: "The disk is full." });
});
