// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** A plan that was kept, shown as it was. */
import { render, screen } from "@testing-library/preact";
import { afterEach, expect, test, vi } from "vitest";

import type { PlanAnswer } from "../../src/api/circuits";
import type { MachineDetail } from "../../src/api/machines";
import { KeptPlan } from "../../src/features/plan";
import { violations } from "./axe";
import { good, serve, snapshot } from "./bench";

afterEach(() => {
  vi.unstubAllGlobals();
});

const ENTRY = {
  id: "7",
  circuit: "front",
  made_at: "2026-05-01T10:00:00Z",
  machine_revision: 3,
  headline: "10 % (6–14) stays old",
};

function open(revision: number, plan = "7"): ReturnType<typeof serve> {
  const { plan: document, scene } = snapshot<PlanAnswer>("plan-skerry-front");
  const sent = serve("skerry", "front", {
    "GET /machines/skerry": () => good({ ...snapshot<MachineDetail>("machine-skerry"), id: "skerry", revision }),
    "GET /machines/skerry/plans": () => good({ plans: [ENTRY] }),
    [`GET /plans/${plan}`]: () =>
      plan === "7" ? good(document) : { status: 404, body: snapshot("refusal-gone") },
    "GET /scene": () => good(scene),
  });
  render(<KeptPlan id="skerry" plan={plan} />);
  return sent;
}

test("as long as the machine is the same, the kept plan has its drawing and nothing is planned", async () => {
  const sent = open(3);
  // regression: the figure of the kept plan
  expect(await screen.findByText("10 %", { selector: ".figure-value" })).toBeTruthy();
  expect(screen.getByText(/riding evens the calipers out/, { selector: ".figure-words *, .figure-words" })).toBeTruthy();
  expect(document.querySelectorAll(".scene")).toHaveLength(2);
  expect(screen.queryByText("The machine was changed since")).toBeNull();
  expect(screen.queryByRole("switch")).toBeNull();
  expect(sent.some(({ method }) => method === "POST")).toBe(false);
});

test("once the machine was changed the figures stand without a drawing, and that is said", async () => {
  const sent = open(4);
  expect(await screen.findByText("The machine was changed since")).toBeTruthy();
  expect(screen.getByText("10 %", { selector: ".figure-value" })).toBeTruthy();
  expect(document.querySelector(".scene")).toBeNull();
  expect(sent.some(({ path }) => path.endsWith("/scene"))).toBe(false);
  expect(screen.getByRole("link", { name: "Plan it anew" }).getAttribute("href")).toBe("#/m/skerry/plan/front");
});

test("the kept plan holds the page to print", async () => {
  open(3);
  await screen.findByText("Print on one page");
  const sheet = document.querySelector(".only-printed .sheet");
  expect(sheet?.querySelectorAll(".tick-box")).toHaveLength(2);
});

test("a plan that is not there says so and leads back", async () => {
  open(3, "none");
  expect(await screen.findByRole("heading", { name: "This plan is not kept here" })).toBeTruthy();
});

const AXE_MS = 30_000;

test(
  "a kept plan is clean for assistive tools",
  async () => {
    open(4);
    await screen.findByText("The machine was changed since");
    expect(await violations()).toEqual([]);
  },
  AXE_MS,
);
