// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The plan on a phone: what one needs first, the rest folded with its main figure on the fold. */
import { fireEvent, render, screen, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { PlanAnswer } from "../../src/api/circuits";
import { Plan } from "../../src/features/plan";
import { violations } from "./axe";
import { good, serve, snapshot } from "./bench";

const SLOW_MS = 15_000;
vi.setConfig({ testTimeout: 2 * SLOW_MS });

function screenIs(narrow: boolean): void {
  const nobody = (): void => {};
  vi.stubGlobal("matchMedia", () => ({
    matches: narrow,
    addEventListener: nobody,
    removeEventListener: nobody,
  }));
}

beforeEach(() => {
  history.replaceState(null, "", "#/m/skerry/plan/front");
  screenIs(true);
});
afterEach(() => {
  vi.unstubAllGlobals();
});

async function open(answer = snapshot<PlanAnswer>("plan-skerry-front")): Promise<void> {
  serve("skerry", "front", { "POST /plan": () => good(answer) });
  render(<Plan id="skerry" circuit="front" />);
  await screen.findByText("How and why", {}, { timeout: SLOW_MS });
}

function foldOf(title: string): HTMLDetailsElement | null {
  return screen.getByText(title, { selector: "h2" }).closest("details");
}

test("on a phone screws, reservoir and cautions stand open and the rest is folded", async () => {
  await open();
  const folded = ["What you can change", "What comes out", "What would narrow this", "How and why"];
  expect(folded.map((title) => foldOf(title)?.open)).toEqual([false, false, false, false]);
  expect(["Screw by screw", "At the bench", "Cautions", "Take it along"].map(foldOf)).toEqual([null, null, null, null]);
});

test("each fold says the main figure of what is inside", async () => {
  await open();
  const gists = [...document.querySelectorAll(".part-gist")].map((gist) => gist.textContent);
  // regression: the figures of the kept plan
  expect(gists).toEqual([
    expect.stringMatching(/^Pistons home first would save \S+ ml at the \S+ caliper\. Quickest: \D+\d+–\d+ minutes\.$/),
    "95 % new after 67–80 ml at the left caliper, 31–43 ml at the right caliper.",
    expect.stringMatching(/^Most, \d+ % of the spread: left caliper, fluid in it that the flow does not sweep\.$/),
    "5 quantities assumed, 8 sources.",
  ]);
});

test("on a desk nothing is folded", async () => {
  screenIs(false);
  await open();
  expect(foldOf("What you can change")).toBeNull();
  expect(document.querySelector(".part-gist")).toBeNull();
});

test("one tap on the warmth opens its fold and goes to its box", async () => {
  const answer = snapshot<PlanAnswer>("plan-skerry-front");
  const warmth = { name: "work/workshop_degc", per_cent: 40, words: "warmth of the workshop", measure: "", also: [] };
  await open({ ...answer, plan: { ...answer.plan, narrow: [warmth] } });
  fireEvent.click(screen.getByText("Say how warm it is"));
  expect(foldOf("What you can change")?.open).toBe(true);
  expect(document.activeElement).toBe(screen.getByLabelText(/How warm the workshop is/));
});

test("techniques are compared in figures on request", async () => {
  const asked: unknown[] = [];
  serve("skerry", "front", {
    "POST /plan": ({ body }) => {
      asked.push(body);
      const answer = snapshot<PlanAnswer>("plan-skerry-front");
      const { technique = answer.plan.technique } = body as { technique?: string };
      const left = technique === "half turn and wait" ? 0.2 : 0.1;
      const whole = { p05: left - 0.01, p50: left, p95: left + 0.01 };
      return good({ ...answer, plan: { ...answer.plan, technique, left_old: { ...answer.plan.left_old, whole } } });
    },
  });
  render(<Plan id="skerry" circuit="front" />);
  fireEvent.click(await screen.findByText("Compare them in figures"));
  const row = (await screen.findByText("20.0 % (19.0–21.0)")).closest("tr");
  if (row === null) throw new Error("the figure has no row");
  expect(within(row).getByText("Half turn and wait")).toBeTruthy();
  expect(screen.queryByText("Compare them in figures")).toBeNull();
  expect(asked).toHaveLength(5);
});

const AXE_MS = 30_000;

test(
  "the plan on a phone is clean for assistive tools with every fold open",
  async () => {
    await open();
    for (const fold of document.querySelectorAll("details")) fold.open = true;
    expect(await violations()).toEqual([]);
  },
  AXE_MS,
);
