// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The list of machines against answers that the server's own tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { MachineDetail, MachineSummary } from "../../src/api/machines";
import { words } from "../../src/display";
import { Machines } from "../../src/features/machines";
import { lastRemoved } from "../../src/removed";
import { axeFaults } from "../axe";
import { good, serve, snapshot, type Reply, type Sent } from "../plan/bench";

const demo = (): MachineSummary[] => snapshot<{ machines: MachineSummary[] }>("machines").machines;
const own = (): MachineSummary => {
  const { text: _, bike: __, ...summary } = snapshot<MachineDetail>("machine-started");
  return summary;
};

beforeEach(() => history.replaceState(null, "", "#/"));
afterEach(() => {
  vi.unstubAllGlobals();
  words.value = "uk";
  lastRemoved.value = null;
});

function open(machines: readonly MachineSummary[], ways: Parameters<typeof serve>[2] = {}): readonly Sent[] {
  const sent = serve("skerry", "front", {
    "GET /machines": () => good({ machines }),
    "POST /preview": () => good(snapshot("preview")),
    ...ways,
  });
  render(<Machines />);
  return sent;
}

function choose(name: string, content: BlobPart[]): void {
  const input = screen.getByLabelText<HTMLInputElement>("Bring in a circuit file");
  Object.defineProperty(input, "files", { value: [new File(content, name)], configurable: true });
  fireEvent.change(input);
}

test("a first-time visitor reads what it is for, can start, and sees it on a demo machine", async () => {
  const sent = open(demo());
  expect(await screen.findByRole("heading", { level: 1, name: "Know the flush before you open a screw" })).toBeTruthy();
  expect(screen.getByText(/How much fluid to push through each bleed nipple/)).toBeTruthy();
  expect(screen.getByRole("link", { name: "Start with your machine" }).getAttribute("href")).toBe("#/new");
  // regression: the figure of the kept plan
  expect(await screen.findByText("10 %", { selector: ".figure-value" })).toBeTruthy();
  expect(sent.filter(({ method }) => method === "POST").map(({ path }) => path)).toEqual([
    "/api/machines/id-4/circuits/front/plan",
  ]);
  expect(await axeFaults()).toEqual([]);
});

test("without any machine it teaches the three steps on a usual brake", async () => {
  open([]);
  const steps = await screen.findAllByRole("listitem");
  expect(steps.map((step) => step.querySelector("strong")?.textContent)).toEqual([
    "Say what kind of machine it is.",
    "Measure what you like.",
    "Read the plan.",
  ]);
  expect(await screen.findByRole("img")).toBeTruthy();
  expect(screen.getByText(/Its machines were removed/)).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
});

test("one's own machines come first, each circuit with its fluid, its screws and a way to the plan", async () => {
  words.value = "us";
  open([own(), ...demo()]);
  expect(await screen.findByRole("heading", { level: 1, name: "Machines" })).toBeTruthy();
  const [first] = await screen.findAllByRole("heading", { level: 2 });
  expect(first?.textContent).toBe("Fulmar 600 sport");
  const row = first?.closest("li");
  if (!row) throw new Error("the machine has no row");
  expect(within(row).getAllByText("fluid not known")).toHaveLength(2);
  expect(within(row).getByText("3 bleeder screws")).toBeTruthy();
  expect(within(row).getByText("none of 42 sizes known")).toBeTruthy();
  expect(within(row).getByRole("link", { name: "Plan the flush of Fulmar 600, front" }).getAttribute("href")).toBe(
    "#/m/id-1/plan/front",
  );
  expect(await axeFaults()).toEqual([]);
});

test.each([
  ["too large", [new Uint8Array(5_000_000)], /big\.toml has 5\.0 MB, and at most 1 MB is taken/],
  ["not text", [new Uint8Array([0xff, 0xfe, 0x80])], /big\.toml is not plain text in UTF-8/],
  ["empty", [], /big\.toml is empty\. Choose the file that ends in \.toml\./],
] as const)("a file that is %s is refused before it is sent", async (_, content, reason) => {
  const sent = open(demo());
  await screen.findByRole("heading", { level: 2 });
  choose("big.toml", [...content]);
  expect((await screen.findByText(reason)).closest("[role=alert]")).toBeTruthy();
  expect(sent.some(({ path }) => path.endsWith("/file"))).toBe(false);
});

test("every fault of a file is shown by line, leads to its place, and can be put right there", async () => {
  const answers: Reply[] = [{ status: 422, body: snapshot("refusal-file") }, good(snapshot("machine-started"))];
  const sent = open(demo(), { "POST /file": () => answers.shift() ?? "nobody" });
  await screen.findByRole("heading", { level: 2 });
  choose("mine.toml", ["a\nb\nc\nclass = 'sprot'\nmass_kg = -1\n"]);
  const faults = await screen.findByRole("alert");
  expect(within(faults).getAllByRole("listitem").map((one) => one.textContent?.split(/(?<=\d|line)(?=[a-z])/)[0])).toEqual([
    "no one line",
    "line 4",
    "line 5",
  ]);
  expect(await axeFaults()).toEqual([]);
  const box = screen.getByLabelText<HTMLTextAreaElement>("What stands in mine.toml");
  fireEvent.click(screen.getByRole("button", { name: "line 4" }));
  expect(document.activeElement).toBe(box);
  expect(box.value.slice(box.selectionStart, box.selectionEnd)).toBe("class = 'sprot'");
  fireEvent.input(box, { target: { value: "put right" } });
  fireEvent.click(screen.getByRole("button", { name: "Bring it in" }));
  await waitFor(() => expect(location.hash).toBe("#/m/id-1"));
  expect(sent.at(-1)?.body).toBe("put right");
});

test("a removed machine can be put back from the list", async () => {
  lastRemoved.value = { name: "Fulmar 600", text: "its file" };
  const sent = open(demo(), { "POST /file": () => good(snapshot("machine-started")) });
  fireEvent.click(await screen.findByRole("button", { name: "Put Fulmar 600 back" }));
  await waitFor(() => expect(screen.queryByText("Fulmar 600 was removed")).toBeNull());
  expect(sent.find(({ path }) => path.endsWith("/file"))?.body).toBe("its file");
});

test("putting the demo back asks first where that undoes changes", async () => {
  const changed = demo().map((machine) => (machine.id === "id-4" ? { ...machine, revision: 3 } : machine));
  const sent = open(changed, { "POST /demo": () => good({ machines: demo() }) });
  fireEvent.click(await screen.findByRole("button", { name: "Put the demo workshop back" }));
  expect(screen.getByText("What you changed in Skerry 1100 goes back to how it came.")).toBeTruthy();
  expect(sent.some(({ path }) => path.endsWith("/demo"))).toBe(false);
  fireEvent.click(screen.getByRole("button", { name: "Put it back all the same" }));
  expect(await screen.findByText("The demo workshop is as it came")).toBeTruthy();
});

test("while the server is away it says so, and comes back by itself", async () => {
  vi.useFakeTimers({ shouldAdvanceTime: true });
  let isAway = true;
  open([], { "GET /machines": () => (isAway ? "nobody" : good({ machines: [own()] })) });
  expect(await screen.findByText("The server is not reachable")).toBeTruthy();
  isAway = false;
  await vi.advanceTimersByTimeAsync(3100);
  expect(await screen.findByText("Fulmar 600")).toBeTruthy();
  expect(screen.queryByText("The server is not reachable")).toBeNull();
  vi.useRealTimers();
});
