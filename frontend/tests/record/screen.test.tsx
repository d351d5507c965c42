// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The record's page, from the documents that the Python tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, expect, test, vi } from "vitest";

import type { BenchRecord } from "../../src/api/record";
import { RecordPage } from "../../src/features/record";
import { measures, words } from "../../src/display";
import { axeFaults } from "../axe";

const kept = import.meta.glob<unknown>("../../../tests/snapshots/record-*.json", { eager: true, import: "default" });

function recordNamed(name: string): BenchRecord {
  const found = Object.entries(kept).find(([path]) => path.endsWith(`/record-${name}.json`));
  if (found === undefined) throw new Error(`the Python tests keep no record ${name}`);
  return structuredClone(found[1]) as BenchRecord;
}

const CLOSED = recordNamed("corrected-after-closing");
const WORKED = recordNamed("skerry-worked");

function open(told: unknown, status = 200): void {
  vi.stubGlobal("fetch", async () => new Response(JSON.stringify(told), { status }));
  render(<RecordPage id="j1" />);
}

afterEach(() => {
  vi.unstubAllGlobals();
  measures.value = "metric";
  words.value = "uk";
});

const part = async (title: string): Promise<readonly (string | null)[]> => {
  const heading = await screen.findByRole("heading", { name: title });
  const section = heading.parentElement as HTMLElement;
  return within(section).getAllByRole("listitem").map((line) => line.textContent);
};

const cells = (table: HTMLElement): readonly (readonly (string | null)[])[] =>
  within(table).getAllByRole("row").map((row) => [...row.children].map((cell) => cell.textContent));

test("a closed job says what was done, by whom, and that nothing is open", async () => {
  open(CLOSED);
  expect(await screen.findByRole("heading", { level: 1, name: "Record: Plover 400, front" })).toBeTruthy();
  const [lead, standing] = [...(document.querySelector(".record")?.children ?? [])].map((one) => one.textContent);
  expect(lead).toMatch(/^Flush with DOT 4, lever \(close before release\), .*2026.*, by Ada Fenn and Ben Marsh\.$/);
  expect(standing).toBe("Closed. Nothing of it is open.");
});

test("screws stand as at the last end, one column each", async () => {
  open(CLOSED);
  // regression: the figures of the kept document
  expect(cells(await screen.findByRole("table", { name: "Screw by screw" }))).toEqual([
    ["Screw", "Left caliper", "Right caliper"],
    ["Standing", "shut, done", "shut, done (the evidence disagrees)"],
    ["Strokes", "20", "10"],
    ["Came out", "32–48 ml", "16–24 ml"],
    ["In the cup", "not read", "not read"],
    ["Top-ups", "0", "0"],
    ["New fluid, wanted 95\u00A0%", "98 % (83–100)", "50 % (20–80)"],
    ["By the figures", "cannot be told", "not enough"],
    ["By the look", "not marked", "not marked"],
    ["Bubbles", "none lately", "none lately"],
  ]);
});

test("what was corrected after the end stands beside it, with only the rows that changed", async () => {
  open(CLOSED);
  const table = await screen.findByRole("table", { name: /^Corrected since the last end/ });
  // regression: the figures of the kept document
  expect(cells(table).map(([name]) => name)).toEqual(["Screw", "Came out", "In the cup", "New fluid, wanted 95\u00A0%"]);
  expect(cells(table)[2]).toEqual(["In the cup", "not read", "18 ml"]);
  const lines = await part("Corrected after an end");
  expect(lines).toHaveLength(4);
  expect(lines[0]).toMatch(/2026, \d\d:\d\d, Ada Fenn: caught \(point right caliper, ml 18\)$/);
  expect(screen.getByText("4 corrections came after the last signature.")).toBeTruthy();
});

test("ends, rechecks with their reasons, notes and signatures are told", async () => {
  open(CLOSED);
  const ends = await part("Ends and rechecks");
  expect(ends.map((line) => line?.split(":")[0])).toEqual([
    "Ready to roll",
    "First stop done",
    "Closed",
    "Hot recheck",
    "Next morning recheck",
  ]);
  expect(ends[4]).toMatch(/^Next morning recheck: waived, machine sold; due /);
  expect(await part("Measured and noted")).toEqual([
    "Lever travel: 31.5 mm",
    "Note: the cup was read late",
    "Photo: screw.jpg",
  ]);
  expect(screen.getByText("Signed by").parentElement?.textContent).toMatch(/^Signed by Ada Fenn, .*2026, \d\d:\d\d$/);
});

test("an open job lists what is open, its gates, marks and cautions", async () => {
  open(WORKED);
  expect(
    await screen.findByText(
      "Still open: questions that were not answered; the first stop; the rechecks; the signature.",
      { exact: false },
    ),
  ).toBeTruthy();
  const asked = await part("Asked before opening");
  expect(asked[0]).toMatch(/^Yes: The bleed screws .*Ada Fenn, \d\d:\d\d$/);
  expect((await part("Asked before rolling"))[0]).toMatch(/^Not answered: /);
  // regression: the figures of the kept document
  expect((await part("Seen in the tube"))[0]).toBe(
    "Left caliper: clear as new at 73–90 ml, in fluid that sat in the lines or the master",
  );
  expect(await part("Cautions")).toHaveLength(WORKED.cautions.length);
  expect(screen.getByText("Not signed.")).toBeTruthy();
});

test("a gate gone past, a bottle and an undone entry are told apart", async () => {
  const [first, ...rest] = WORKED.gates;
  if (first === undefined) throw new Error("no gate");
  const entry = { event: "e7", at: "2026-05-01T09:30:00.000Z", who: "Bo", kind: "set_done", said: "count 5" };
  open({
    ...WORKED,
    gates: [{ ...first, answer: "overridden", reason: "done before" }, ...rest],
    bottles: [{ event: "e1", fluid: "DOT 4", batch: null, opened_on: "2026-05-01" }],
    corrections: [{ ...entry, event: "e9", kind: "undone", said: "target e7" }],
    taken_back: [entry],
  });
  expect((await part("Asked before opening"))[0]).toMatch(/^Gone on without, done before: The bleed screws/);
  expect((await part("Fluid and parts"))[1]).toBe("Bottle: DOT 4, batch not told, opened on 1 May 2026");
  expect((await part("Corrected after an end"))[0]).toMatch(/Bo: took back: set done \(count 5\)$/);
  expect((await part("Taken back"))[0]).toMatch(/Bo: set done \(count 5\)$/);
});

test("it prints, keeps as JSON and goes back to the bench", async () => {
  const print = vi.fn();
  vi.stubGlobal("print", print);
  open(CLOSED);
  await screen.findByRole("table", { name: "Screw by screw" });
  fireEvent.click(screen.getByRole("button", { name: "Print" }));
  expect(print).toHaveBeenCalledOnce();
  const link = screen.getByRole("link", { name: "Keep as JSON" });
  expect([link.getAttribute("href"), link.getAttribute("download")]).toEqual([
    "/api/jobs/j1/record",
    "record-plover-400-front.json",
  ]);
  expect(screen.getByRole("link", { name: "To the bench" }).getAttribute("href")).toBe("#/job/j1");
});

test("American words and imperial measures are said, names stay", async () => {
  measures.value = "imperial";
  words.value = "us";
  open(WORKED);
  const table = await screen.findByRole("table", { name: "Screw by screw" });
  // derived: 73.01 and 89.85 ml / 28.413 ml = 2.57 and 3.16 fl oz
  expect(cells(table).find(([name]) => name === "Came out")?.[1]).toBe("2.6–3.2 fl oz");
  expect(table.textContent).toContain("Left caliper");
});

test("a job that is not there is said, and nothing can be printed", async () => {
  open({ error: "unknown-job", message: "there is no such job" }, 404);
  expect((await screen.findByRole("alert")).textContent).toContain("there is no such job");
  expect(screen.getByRole<HTMLButtonElement>("button", { name: "Print" }).disabled).toBe(true);
});

test.each([["closed", CLOSED], ["worked", WORKED]])("%s: axe finds nothing, and no verdict is passed", async (_, told) => {
  open(told);
  await waitFor(() => expect(screen.getByRole("table", { name: "Screw by screw" })).toBeTruthy());
  expect(await axeFaults()).toEqual([]);
  expect(document.body.textContent?.toLowerCase()).not.toContain("safe to ride");
});
