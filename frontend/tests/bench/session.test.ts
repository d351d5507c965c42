// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** A job opened again while taps of it still wait in this browser. */
import { expect, test } from "vitest";

import { sessionOf } from "../../src/features/bench/session";
import { memoryDrawer } from "../../src/outbox/drawer";
import { log, sheetNamed } from "./bench";

test("what waits is counted from the first moment, and so is what was refused", async () => {
  const [begun, note, other] = log([
    { kind: "started", posture: "level" },
    { kind: "note", text: "waits" },
    { kind: "note", text: "refused" },
  ]);
  if (begun === undefined || note === undefined || other === undefined) throw new Error("no log");
  const drawer = memoryDrawer();
  await drawer.put([
    { id: note.id, job: "j", event: note, refused: null },
    { id: other.id, job: "j", event: other, refused: "other content" },
  ]);
  const sheet = sheetNamed("plain");
  const head = { id: "j", machine_id: "m", machine_revision: 1, made_at: "2026-05-01T09:00:00.000Z" };
  const job = { ...head, sheet, events: [begun], arrival: 1 };
  const session = await sessionOf(job, { who: "Bo", device: "phone" }, drawer, true);
  const { queued, refused } = session.standing.value;
  expect([queued, refused.map(({ id }) => id)]).toEqual([1, [other.id]]);
  expect(session.state.value.notes.map(({ text }) => text)).toEqual(["waits", "refused"]);
});
