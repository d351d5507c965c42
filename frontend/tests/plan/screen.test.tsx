// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The plan screen against answers that the server's own tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { PlanAnswer } from "../../src/api/circuits";
import type { MachineDetail } from "../../src/api/machines";
import { Plan } from "../../src/features/plan";
import { good, refusal, serve, snapshot, type Reply } from "./bench";

const AT = "#/m/skerry/plan/front";

beforeEach(() => {
  history.replaceState(null, "", AT);
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

function open(circuit = "front"): void {
  render(<Plan id="skerry" circuit={circuit} />);
}

/** The kept plan with another share left old, to tell two answers apart. */
function planLeaving(share: number): PlanAnswer {
  const answer = snapshot<PlanAnswer>("plan-skerry-front");
  const whole = { p05: share - 0.01, p50: share, p95: share + 0.01 };
  return { ...answer, plan: { ...answer.plan, left_old: { ...answer.plan.left_old, whole } } };
}

test("the headline stands first, then the screws in order", async () => {
  serve("skerry", "front");
  open();
  // regression: the figures of the kept plan
  expect(await screen.findByText("10 %", { selector: ".figure-value" })).toBeTruthy();
  expect(screen.getByText(/stays old, much of it in the left caliper; riding evens the calipers out to/)).toBeTruthy();
  const rows = within(screen.getByRole("table", { name: /What each screw takes/ })).getAllByRole("row");
  expect(rows.slice(1).map((row) => within(row).getByRole("rowheader").textContent)).toEqual([
    "1left caliper8 mm spanner",
    "2right caliper8 mm spanner",
  ]);
  const levels = screen.getAllByRole("heading").map((heading) => Number(heading.tagName.slice(1)));
  levels.reduce((before, level) => {
    expect(level - before).toBeLessThanOrEqual(1);
    return level;
  }, 0);
});

test("findings come before the figures", async () => {
  serve("limpet", "front", { "GET /machines/skerry": () => good(snapshot("machine-limpet")) });
  open();
  const notice = await screen.findByRole("alert");
  expect(notice.textContent).toContain("Nobody knows what fluid is in there");
  const figure = screen.getByText(/%/, { selector: ".figure-value" });
  expect(notice.compareDocumentPosition(figure) & Node.DOCUMENT_POSITION_FOLLOWING).toBeTruthy();
});

test("cautions are there without a press, and who comes first", async () => {
  serve("skerry", "front");
  open();
  expect(await screen.findByRole("heading", { name: "Cautions" })).toBeTruthy();
  expect(screen.getByText("Paint, plastics and lenses:").closest("details")).toBeNull();
  const whole = screen.getByText(/The machine's manual, local rules and licensed practice come first/);
  expect(whole.closest("details")).toBeNull();
});

test("pistons home first is asked for, kept in the address, and its gain is said", async () => {
  const sent = serve("skerry", "front", {
    "POST /plan": ({ body }) =>
      good(planLeaving((body as { pistons_home?: boolean }).pistons_home ? 0.08 : 0.1)),
  });
  open();
  fireEvent.click(await screen.findByRole("switch", { name: /Push the pistons home/ }));
  expect(await screen.findByText(/^10.0 % \(9.0–11.0\) is now 8.0 % \(7.0–9.0\)/)).toBeTruthy();
  expect(location.hash).toBe(`${AT}?pistons_home=yes`);
  expect(sent.filter(({ path }) => path.endsWith("/plan")).map(({ body }) => body)).toEqual([
    {},
    { pistons_home: true },
  ]);
});

test("quick changes make one request, and a late answer to an earlier one is dropped", async () => {
  const late: ((reply: Reply) => void)[] = [];
  const sent = serve("skerry", "front", {
    "POST /plan": ({ body }) => {
      const { method, target } = body as { method?: string; target?: number };
      if (method === "vacuum") return new Promise((resolve) => late.push(resolve));
      return good(planLeaving(target === 0.99 ? 0.05 : 0.1));
    },
  });
  open();
  fireEvent.click(await screen.findByRole("radio", { name: /^Gravity/ }));
  fireEvent.click(screen.getByRole("radio", { name: /^Vacuum/ }));
  await waitFor(() => expect(late).toHaveLength(1));
  fireEvent.click(screen.getByRole("radio", { name: /^Lever/ }));
  fireEvent.click(screen.getByRole("radio", { name: "99 % new" }));
  expect(await screen.findByText("5.0 %", { selector: ".figure-value" })).toBeTruthy();
  late[0]?.(good(planLeaving(0.5)));
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(screen.queryByText("50.0 %", { selector: ".figure-value" })).toBeNull();
  const asked = sent.filter(({ path }) => path.endsWith("/plan")).map(({ body }) => body);
  expect(asked).toEqual([{}, { method: "vacuum" }, { method: "lever", target: 0.99 }]);
});

test("a link with a refused method says why and leads to a plan", async () => {
  history.replaceState(null, "", `${AT}?method=reverse&pistons_home=yes`);
  serve("skerry", "front", {
    "POST /plan": ({ body }) =>
      (body as { method?: string }).method === "reverse"
        ? refusal(422, "method-refused", "a reverse flush is refused here: it pushes old fluid up")
        : good(snapshot("plan-skerry-front")),
  });
  open();
  const notice = await screen.findByRole("alert");
  expect(notice.textContent).toContain("A reverse flush is refused here: it pushes old fluid up.");
  fireEvent.click(within(notice).getByRole("button", { name: "Plan it by lever" }));
  expect(await screen.findByRole("heading", { name: "Screw by screw" })).toBeTruthy();
  expect(location.hash).toBe(`${AT}?pistons_home=yes`);
});

test("a refused fluid leaves the plan before in place, with the way back to it", async () => {
  serve("skerry", "front", {
    "POST /plan": ({ body }) =>
      (body as { fluid?: string }).fluid === "DOT 5"
        ? { status: 422, body: snapshot("refusal-fluid") }
        : good(snapshot("plan-skerry-front")),
  });
  open();
  const fluid = await screen.findByLabelText<HTMLSelectElement>("Fluid that goes in");
  await waitFor(() => expect(fluid.options.length).toBeGreaterThan(5));
  fireEvent.change(fluid, { target: { value: "DOT 5" } });
  const notice = await screen.findByRole("alert");
  expect(notice.textContent).toContain("DOT 5 must not go into a circuit with DOT 4");
  expect(screen.getByText("Keep this plan").closest("button")?.disabled).toBe(true);
  fireEvent.click(within(notice).getByRole("button", { name: "Back to the plan before" }));
  await waitFor(() => expect(screen.queryByRole("alert")).toBeNull());
  expect(fluid.value).toBe("DOT 4");
  expect(location.hash).toBe(AT);
});

test("a method refused in this circuit is told but cannot be taken", async () => {
  serve("skerry", "front");
  open();
  const row = (await screen.findByText("Reverse, from the screw up")).closest("tr");
  if (row === null) throw new Error("the method has no row");
  expect(within(row).getByText("refused")).toBeTruthy();
  expect(within(row).getByText("It pushes what lies in the caliper up into the ABS unit.")).toBeTruthy();
  expect(within(row).queryByRole("radio")).toBeNull();
});

test("without the server everything chosen stays, and the plan comes when it is back", async () => {
  let isThere = true;
  serve("skerry", "front", {
    "POST /plan": () => (isThere ? good(snapshot("plan-skerry-front")) : "nobody"),
  });
  open();
  const home = await screen.findByRole("switch", { name: /Push the pistons home/ });
  isThere = false;
  fireEvent.click(home);
  const notice = await screen.findByText("The server is not reachable");
  expect(screen.getByText(/What you chose is kept/)).toBeTruthy();
  expect(home.getAttribute("aria-checked")).toBe("true");
  isThere = true;
  fireEvent.click(screen.getByRole("button", { name: "Try again" }));
  await waitFor(() => expect(notice.isConnected).toBe(false));
});

test("a machine that was removed is said to be gone", async () => {
  const gone = { status: 404, body: snapshot("refusal-gone") };
  serve("skerry", "front", { "POST /plan": () => gone, "GET /machines/skerry": () => gone });
  open();
  expect(await screen.findByText("This machine is not here any more")).toBeTruthy();
  expect(screen.getByRole("link", { name: "To the machines" }).getAttribute("href")).toBe("#/");
});

test("what is worked out is said after a second", async () => {
  vi.useFakeTimers();
  serve("skerry", "front", { "POST /plan": () => new Promise(() => {}) });
  open();
  await vi.advanceTimersByTimeAsync(900);
  expect(screen.queryByText(/Working out/)).toBeNull();
  await vi.advanceTimersByTimeAsync(200);
  expect(screen.getByText("Working out the flush of the front circuit …")).toBeTruthy();
});

test("each screw has its strip and curve, with the same as tables", async () => {
  serve("skerry", "front");
  open();
  expect(await screen.findByRole("img", { name: /^Of 81 ml that come out: left caliper 10 ml/ })).toBeTruthy();
  fireEvent.click(screen.getByRole("radio", { name: /2\s+right caliper/ }));
  expect(await screen.findByRole("img", { name: /^Of 44 ml that come out: right caliper 10 ml/ })).toBeTruthy();
  expect(screen.getByRole("img", { name: /^95 % new after 31–43 ml/ })).toBeTruthy();
  for (const summary of screen.getAllByText("The same as a table")) {
    const details = summary.closest("details");
    if (details) details.open = true;
  }
  expect((await screen.findByText("Per cent of new fluid at the screw")).tagName).toBe("CAPTION");
  expect(screen.getByText("Per cent of each millilitre by where it comes from").tagName).toBe("CAPTION");
});

test("a kept plan is kept as it was asked for", async () => {
  history.replaceState(null, "", `${AT}?target=0.98`);
  const sent = serve("skerry", "front", { "POST /plans": () => ({ status: 201, body: { id: "k" } }) });
  open();
  fireEvent.click(await screen.findByRole("button", { name: "Keep this plan" }));
  expect((await screen.findByText("the machine's page")).getAttribute("href")).toBe("#/m/skerry");
  expect(sent.at(-1)).toMatchObject({ method: "POST", body: { target: 0.98 } });
  expect(screen.getByRole("link", { name: "One page to print" }).getAttribute("href")).toBe(
    `${AT}/print?target=0.98`,
  );
});

async function answerFirst(value: string): Promise<void> {
  const [know] = await screen.findAllByRole("button", { name: /^I know it/ });
  await waitFor(() => expect(know?.hasAttribute("disabled")).toBe(false));
  if (know) fireEvent.click(know);
  fireEvent.click(await screen.findByRole("radio", { name: "Measured" }));
  fireEvent.input(await screen.findByLabelText("The value"), { target: { value } });
  fireEvent.click(screen.getByRole("button", { name: "Keep and plan again" }));
}

function changed(revision: number): MachineDetail {
  return { ...snapshot<MachineDetail>("machine-skerry"), id: "skerry", revision };
}

test("an answer is kept upon the revision that was read, and the new band is said", async () => {
  let isKept = false;
  const sent = serve("skerry", "front", {
    "POST /plan": () => good(planLeaving(isKept ? 0.09 : 0.1)),
    "PATCH /machines/skerry": () => {
      isKept = true;
      return good(changed(2));
    },
  });
  open();
  await answerFirst("2,5");
  const told = await screen.findByText(/^Kept\. 10.0 % \(9.0–11.0\) is now 9.0 % \(8.0–10.0\)/);
  expect(document.activeElement).toBe(told);
  expect(sent.find(({ method }) => method === "PATCH")?.body).toEqual({
    read_revision: 1,
    changes: [{ key: "front/left caliper/unswept_ml", value: 2.5 }],
  });
});

test("an answer that cannot be is said at the box, and nothing is sent", async () => {
  const sent = serve("skerry", "front");
  open();
  await answerFirst("500");
  expect(await screen.findByText(/That cannot be: it lies anywhere from 0 to 120 ml/)).toBeTruthy();
  expect(sent.some(({ method }) => method === "PATCH")).toBe(false);
});

test("when somebody else saved first the figure stays and goes on top on request", async () => {
  const revisions: number[] = [];
  serve("skerry", "front", {
    "GET /machines/skerry": () => good(changed(revisions.length === 0 ? 1 : 4)),
    "PATCH /machines/skerry": ({ body }) => {
      const { read_revision: read } = body as { read_revision: number };
      revisions.push(read);
      return read === 4 ? good(changed(5)) : { status: 409, body: snapshot("refusal-late") };
    },
  });
  open();
  await answerFirst("2.5");
  expect(await screen.findByText("This machine was changed meanwhile")).toBeTruthy();
  expect(screen.getByLabelText<HTMLInputElement>("The value").value).toBe("2.5");
  fireEvent.click(screen.getByRole("button", { name: "Read it again and keep my figure" }));
  expect(await screen.findByText(/^Kept\./)).toBeTruthy();
  expect(revisions).toEqual([1, 4]);
});
