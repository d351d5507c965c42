// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** A tap is written down at once and seen in the next frame; the rest of the screen follows. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import { tapped } from "../../src/features/bench/settings";
import { atFirstScrew, log, open, sheetNamed } from "./bench";

const PLAIN = sheetNamed("plain");
let frames: FrameRequestCallback[] = [];

beforeEach(() => {
  frames = [];
  vi.stubGlobal("matchMedia", () => ({ matches: false }));
  vi.stubGlobal("requestAnimationFrame", (one: FrameRequestCallback) => frames.push(one));
});
afterEach(() => {
  vi.unstubAllGlobals();
  tapped.value = false;
});

function button(words: string): HTMLButtonElement {
  const found = [...document.querySelectorAll("button")].find((one) => one.textContent?.includes(words));
  if (found === undefined) throw new Error(`no button ${words}`);
  return found;
}

/** Let a frame be made, and what waits for it be done. */
async function frame(): Promise<void> {
  frames.splice(0).forEach((one) => one(performance.now()));
  await new Promise((go) => setTimeout(go, 20));
}

async function press(words: string): Promise<void> {
  button(words).click();
  await frame();
}

const figure = (): string | null | undefined => document.querySelector(".rhythm-figure")?.textContent;
const left = (): string | null | undefined => document.querySelector(".pot-count")?.textContent;

test("a stroke shows in its button and its count first, and is in the outbox by then", async () => {
  tapped.value = true;
  const { session, server } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  await press("No sample here");
  const before = left();
  const bar = button("One stroke done");
  bar.click();
  expect(bar.dataset["taken"]).toBe("");
  expect(session.events.value.at(-1)?.kind).toBe("set_done");
  await vi.waitFor(() => expect(server.events.at(-1)?.kind).toBe("set_done"));
  expect(figure()).toBe("1");
  expect(left()).toBe(before);
  await frame();
  expect(bar.dataset["taken"]).toBeUndefined();
  expect(left()).not.toBe(before);
});

test("two strokes before a frame are two strokes", async () => {
  tapped.value = true;
  const { written, server, session } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  await press("No sample here");
  button("One stroke done").click();
  button("One stroke done").click();
  expect(written()).toHaveLength(2);
  await frame();
  expect(session.state.value.turns[0]?.count).toBe(2);
  await vi.waitFor(() => expect(server.events.filter((one) => one.kind === "set_done")).toHaveLength(2));
});

test("a press meant for a target that the press before took away does nothing", async () => {
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  await press("No sample here");
  await press("Lead");
  await press("Pause");
  await press("+1");
  const did = button("Did 1");
  did.click();
  did.click();
  expect(written()).toEqual([{ kind: "set_done", point: 0, count: 1 }]);
});

test("a page put away does not wait for a frame", async () => {
  tapped.value = true;
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  await press("No sample here");
  const before = left();
  button("One stroke done").click();
  document.dispatchEvent(new Event("visibilitychange"));
  expect(left()).not.toBe(before);
  expect(written()).toHaveLength(1);
});

test("without a frame the screen is drawn all the same", async () => {
  tapped.value = true;
  await open(PLAIN, log(atFirstScrew(PLAIN)));
  await press("No sample here");
  const before = left();
  button("One stroke done").click();
  await vi.waitFor(() => expect(left()).not.toBe(before));
  expect(frames.length).toBeGreaterThan(0);
});
