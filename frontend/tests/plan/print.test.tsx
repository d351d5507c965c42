// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The page to print, from what the server's own tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, expect, test, vi } from "vitest";

import type { PlanAnswer } from "../../src/api/circuits";
import { PrintPlan } from "../../src/features/plan";
import { good, serve, snapshot } from "./bench";

const AT = "#/m/skerry/plan/front/print";

afterEach(() => {
  vi.unstubAllGlobals();
});

function open(query = ""): void {
  history.replaceState(null, "", AT + query);
  render(<PrintPlan id="skerry" circuit="front" />);
}

test("each screw has a box to tick and room for what was used", async () => {
  serve("skerry", "front");
  open();
  const table = await screen.findByRole("table", { name: /Screw by screw/ });
  const rows = within(table).getAllByRole("row").slice(1);
  expect(rows).toHaveLength(2);
  for (const row of rows) {
    expect(within(row).getByRole("img", { name: "box to tick" })).toBeTruthy();
    expect(row.querySelector(".room")).toBeTruthy();
  }
  // regression: the figures of the kept plan
  expect([...(rows[0]?.children ?? [])].map((cell) => cell.textContent)).toEqual([
    "",
    "1 left caliper",
    "8 mm",
    "67–80 ml",
    "38–56",
    "3",
    "9–15",
    "to fill in",
  ]);
});

test("every caution is there, shortened, and who comes first", async () => {
  serve("skerry", "front");
  open();
  const cautions = (await screen.findByRole("heading", { name: "Cautions" })).nextElementSibling;
  const { plan } = snapshot<PlanAnswer>("plan-skerry-front");
  expect(cautions?.children).toHaveLength(plan.cautions.length - 1);
  expect(screen.getByText(/The machine's manual, local rules and licensed practice come first/)).toBeTruthy();
});

test("the page is the plan that the link asks for", async () => {
  const sent = serve("skerry", "front", {
    "POST /plan": () => {
      const answer = snapshot<PlanAnswer>("plan-skerry-front");
      return good({ ...answer, plan: { ...answer.plan, pistons_home_first: true } });
    },
  });
  open("?pistons_home=yes&target=0.98");
  expect(await screen.findByText(/Pistons home first: left caliper, right caliper/)).toBeTruthy();
  expect(sent.map(({ body }) => body)).toEqual([{ pistons_home: true, target: 0.98 }]);
  expect(screen.getByRole("link", { name: "Back to the plan" }).getAttribute("href")).toBe(
    "#/m/skerry/plan/front?target=0.98&pistons_home=yes",
  );
});

test("nothing is printed before the plan is there", async () => {
  const press = vi.fn();
  vi.stubGlobal("print", press);
  serve("skerry", "front");
  open();
  const button = screen.getByRole<HTMLButtonElement>("button", { name: "Print" });
  expect(button.disabled).toBe(true);
  await waitFor(() => expect(button.disabled).toBe(false));
  fireEvent.click(button);
  expect(press).toHaveBeenCalledOnce();
});
