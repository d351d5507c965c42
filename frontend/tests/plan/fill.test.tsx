// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The fill of a dry circuit, as the server's own tests keep it. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { PlanAnswer, PlanWish } from "../../src/api/circuits";
import { KeptPlan, Plan } from "../../src/features/plan";
import { violations } from "./axe";
import { good, refusal, serve, snapshot, type Sent } from "./bench";

const AT = "#/m/skerry/plan/front";

beforeEach(() => {
  history.replaceState(null, "", AT);
});
afterEach(() => {
  vi.unstubAllGlobals();
});

/** Answers with a fill where one is asked for, else with a flush. */
function byWork({ body }: Sent): ReturnType<typeof good> {
  const { work = "flush" } = body as PlanWish;
  return good(snapshot(work === "fill" ? "plan-fill-skerry-front" : "plan-skerry-front"));
}

function openFill(name: string): void {
  history.replaceState(null, "", `${AT}?work=fill`);
  serve("skerry", "front", { "POST /plan": () => good(snapshot(name)) });
  render(<Plan id="skerry" circuit="front" />);
}

test("what it is for is chosen like the rest, and taken back", async () => {
  const sent = serve("skerry", "front", { "POST /plan": byWork });
  history.replaceState(null, "", `${AT}?pistons_home=yes&target=0.98`);
  render(<Plan id="skerry" circuit="front" />);
  const choice = await screen.findByRole("group", { name: "What for" });
  expect(within(choice).getAllByRole("radio")).toHaveLength(2);
  fireEvent.click(within(choice).getByRole("radio", { name: /Dry circuit/ }));
  expect(await screen.findByRole("heading", { level: 1, name: "Fill the front circuit" })).toBeTruthy();
  expect(location.hash).toBe(`${AT}?target=0.98&work=fill`);
  expect(sent.findLast(({ method }) => method === "POST")?.body).toEqual({ work: "fill", target: 0.98 });
  expect(screen.getByText("This is now a fill; before, it was a flush.")).toBeTruthy();
  fireEvent.click(screen.getByRole("radio", { name: /New fluid/ }));
  expect(await screen.findByRole("heading", { level: 1, name: "Flush the front circuit" })).toBeTruthy();
  expect(location.hash).toBe(`${AT}?target=0.98`);
});

test("a fill says what it takes, and each step what to do, what to see and when to stop", async () => {
  openFill("plan-fill-skerry-front");
  // regression: the figures of the kept plan
  expect(await screen.findByText("91.1 ml", { selector: ".figure-value" })).toBeTruthy();
  const { fill } = snapshot<PlanAnswer>("plan-fill-skerry-front").plan;
  const steps = [...document.querySelectorAll(".fill-step")];
  expect(steps.map((step) => step.querySelector("h3")?.textContent)).toEqual([
    "1pot29 ml",
    "2master4.4–5.9 ml, 4–15 strokes",
    "3abs unit16 ml, 13–45 strokes",
    "4splitter7.2 ml, 6–21 strokes",
    "5left caliper17 ml, 14–49 strokes",
    "6right caliper17 ml, 14–50 strokes",
  ]);
  steps.forEach((step, place) => {
    const [words, see, stop] = [...step.querySelectorAll("dd")].map((one) => one.textContent);
    expect(words).toBe(fill?.steps[place]?.words);
    expect(see).toBe(fill?.steps[place]?.see);
    expect(`If ${stop}`).toBe(fill?.steps[place]?.stop);
  });
  expect(await violations()).toEqual([]);
});

test("what says nothing for a fill is left out", async () => {
  openFill("plan-fill-skerry-front");
  await screen.findByText("91.1 ml", { selector: ".figure-value" });
  await screen.findByRole("heading", { name: "How and why" });
  for (const name of ["Screw by screw", /What comes out/, "Pistons home first"]) {
    expect(screen.queryByRole("heading", { name })).toBeNull();
  }
  expect(screen.queryByRole("group", { name: "When a screw is done" })).toBeNull();
  expect(document.body.textContent).not.toMatch(/stays old|old fluid left/i);
});

test("beyond this it says stop", async () => {
  openFill("plan-fill-skerry-front");
  const card = (await screen.findByText("Beyond this: stop")).closest("[role=alert]");
  const { beyond, findings } = snapshot<PlanAnswer>("plan-fill-skerry-front").plan;
  const [dry, ...others] = beyond;
  // the dry ABS unit is a finding, and said once
  expect(findings).toContain(dry);
  expect([...(card?.querySelectorAll("li") ?? [])].map((one) => one.textContent)).toEqual(others);
  expect(screen.getAllByText(dry ?? "")).toHaveLength(1);
});

test("from below: how much may go in before the reservoir runs over, or why not", async () => {
  openFill("plan-fill-marram-rear");
  expect(await screen.findByText(/ml to the reservoir\. Draw it down first; 6\.8 ml may go in before it runs over/)).toBeTruthy();
});

test("from below is refused with its reason", async () => {
  openFill("plan-fill-skerry-front");
  const words = "Not here: it pushes what lies in the caliper up into the ABS unit.";
  expect(await screen.findAllByText(words, { selector: "dd" })).toHaveLength(2);
});

test("the cylinder is primed on the bench, step by step", async () => {
  openFill("plan-fill-skerry-front");
  const { fill } = snapshot<PlanAnswer>("plan-fill-skerry-front").plan;
  const head = await screen.findByRole("heading", { name: "A dry master cylinder" });
  const steps = head.closest("section, details")?.querySelectorAll("li") ?? [];
  expect([...steps].map((one) => one.textContent)).toEqual(fill?.prime);
});

test("a fill that needs the manual's order leads to a flush", async () => {
  history.replaceState(null, "", `${AT}?work=fill`);
  serve("skerry", "front", {
    "POST /plan": (asked) =>
      (asked.body as PlanWish).work === "fill" ? refusal(422, "order-needed", "it is linked") : byWork(asked),
  });
  render(<Plan id="skerry" circuit="front" />);
  expect(await screen.findByText("The manual's order is needed")).toBeTruthy();
  fireEvent.click(screen.getByRole("button", { name: "Plan a flush" }));
  await waitFor(() => expect(screen.getByText("10 %", { selector: ".figure-value" })).toBeTruthy());
});

test("a plan kept before there were fills opens as the flush it was", async () => {
  const { plan, scene } = snapshot<PlanAnswer>("plan-skerry-front");
  const { fill: _fill, beyond: _beyond, ...older } = plan;
  const entry = { id: "7", circuit: "front", made_at: "2026-05-01T10:00:00Z", machine_revision: 0, headline: "" };
  serve("skerry", "front", {
    "GET /machines/skerry/plans": () => good({ plans: [entry] }),
    "GET /plans/7": () => good(older),
    "GET /scene": () => good(scene),
  });
  render(<KeptPlan id="skerry" plan="7" />);
  expect(await screen.findByText("10 %", { selector: ".figure-value" })).toBeTruthy();
});
