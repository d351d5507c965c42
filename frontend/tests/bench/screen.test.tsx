// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The bench screen on jobs from the shared sheets. */
import { act, cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { Deed } from "../../src/bench/event";
import { ByLever } from "../../src/features/bench/Gate";
import { keys, tapped } from "../../src/features/bench/settings";
import { atFirstScrew, log, open, opened, sheetNamed } from "./bench";

const SKERRY = sheetNamed("skerry-front");
const PLAIN = sheetNamed("plain");

beforeEach(() => {
  vi.useFakeTimers({ shouldAdvanceTime: true });
  vi.stubGlobal("matchMedia", () => ({ matches: false }));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  tapped.value = false;
  keys.value = { main: ["PageDown", " "], undo: ["PageUp"] };
});

function bar(): HTMLElement {
  const found = document.querySelector<HTMLElement>(".bar-main");
  if (found === null) throw new Error("no main bar");
  return found;
}

const press = (name: string | RegExp): boolean => fireEvent.click(screen.getByRole("button", { name }));

/** Let so many milliseconds go by. */
async function pass(ms: number): Promise<void> {
  await act(async () => {
    await vi.advanceTimersByTimeAsync(ms);
  });
}

test("each gate is one tap; no keeps it open, and going on without it wants a reason", async () => {
  const { written, session } = await open(PLAIN, log([{ kind: "started", posture: "level" }]));
  expect(screen.getByText("The screws turn.")).toBeTruthy();
  press("No");
  expect(screen.getByText("The bottle is right.")).toBeTruthy();
  press("Yes");
  expect(screen.getByText(/Answered with no. Put it right first/)).toBeTruthy();
  press("Go on without");
  expect(bar()).toHaveProperty("disabled", true);
  press("the manual says otherwise");
  fireEvent.click(bar());
  expect(written().at(-1)).toEqual({
    kind: "gate",
    gate: "screws turn",
    answer: "overridden",
    reason: "the manual says otherwise",
  });
  expect(session.state.value.phase).toBe("working");
  expect(screen.getByRole("heading", { level: 1 }).textContent).toBe("The reservoir first");
});

test("a set is led, halted by one press, and put right before it counts", async () => {
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  press("No sample here");
  fireEvent.click(bar());
  expect(bar().textContent?.trim()).toBe("Pausestroke 1 of 5");
  // derived: ten seconds a stroke, the middle of 7 to 13
  await pass(21_000);
  expect(bar().textContent?.trim()).toBe("Pausestroke 3 of 5");
  expect(document.querySelector(".rhythm-figure")?.textContent).toBe("2");
  fireEvent.keyDown(document.body, { key: "PageDown" });
  expect(screen.getByText("Halted. How many were done?")).toBeTruthy();
  press("1 more");
  fireEvent.click(bar());
  expect(written()).toEqual([{ kind: "set_done", point: 0, count: 3 }]);
});

test("a whole set ends by itself and offers what was led", async () => {
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  press("No sample here");
  fireEvent.click(bar());
  await pass(51_000);
  expect(bar().textContent).toContain("Did all 5");
  fireEvent.click(bar());
  expect(written()).toEqual([{ kind: "set_done", point: 0, count: 5 }]);
});

test("a mark in the middle of a set stands after the strokes done so far", async () => {
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  press("No sample here");
  fireEvent.click(bar());
  await pass(21_000);
  press("dark here");
  expect(written()).toEqual([
    { kind: "set_done", point: 0, count: 2 },
    { kind: "mark", point: 0, look: "dark" },
  ]);
  expect(screen.getByText(/The dark fluid sat in the/)).toBeTruthy();
  await pass(10_000);
  fireEvent.click(bar());
  fireEvent.click(bar());
  expect(written().at(-1)).toEqual({ kind: "set_done", point: 0, count: 1 });
});

test("a set that a reload interrupted is asked about", async () => {
  localStorage.setItem("bench set", JSON.stringify({ job: "job", point: 0, size: 5, done: 3, logged: 1, isSample: false }));
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  expect(screen.getByText("Halted. How many were done?")).toBeTruthy();
  fireEvent.click(bar());
  expect(written()).toEqual([{ kind: "set_done", point: 0, count: 2 }]);
  expect(localStorage.getItem("bench set")).toBeNull();
});

test("the first millilitres are caught apart and written as a sample", async () => {
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  expect(bar().textContent).toContain("Catch 3 ml apart");
  fireEvent.click(bar());
  await pass(21_000);
  fireEvent.click(bar());
  // derived: 3 ml at 2 ml a stroke are two strokes
  expect(written()).toEqual([
    { kind: "set_done", point: 0, count: 2 },
    { kind: "sample", point: 0, ml: 3 },
  ]);
});

test("after the first set the cup is asked for, by thumbs, and corrects the counts", async () => {
  const set: Deed = { kind: "set_done", point: 0, count: 4 };
  const { written, session } = await open(PLAIN, log([...atFirstScrew(PLAIN), set]));
  const before = session.state.value.unit_ml.mean;
  expect(screen.getByText("How much is in the cup from this screw?")).toBeTruthy();
  // derived: 4 strokes of 2 ml are expected
  expect(bar().textContent).toContain("8 ml in the cup");
  press("1 ml less");
  press("1 ml less");
  fireEvent.click(bar());
  expect(written()).toEqual([{ kind: "caught", point: 0, ml: 6 }]);
  expect(session.state.value.unit_ml.mean).toBeLessThan(before);
});

const EMPTIED: readonly Deed[] = [
  { kind: "set_done", point: 0, count: 5 },
  { kind: "caught", point: 0, ml: 10 },
  { kind: "set_done", point: 0, count: 3 },
];

test("a low reservoir is loud, and a look that was not taken is not written", async () => {
  const { written, session } = await open(PLAIN, log([...atFirstScrew(PLAIN), ...EMPTIED]));
  expect(session.state.value.pot.call).toBe("now");
  expect(document.querySelector(".pot-now")?.textContent).toContain("top up now");
  expect(bar().className).toContain("bar-stop");
  fireEvent.click(bar());
  expect(written()).toEqual([{ kind: "topped_up", to: "max" }]);
});

test("a look at the level goes into the log before the filling", async () => {
  const { written } = await open(PLAIN, log([...atFirstScrew(PLAIN), ...EMPTIED]));
  press("a tenth higher");
  press("a tenth lower");
  fireEvent.click(bar());
  // derived: eight strokes of 2 ml leave 4 of 20 ml, two tenths of the way
  expect(written()).toEqual([
    { kind: "level_read", above_min_ml: 4 },
    { kind: "topped_up", to: "max" },
  ]);
});

test("below the port the job turns to a bleed and says why", async () => {
  await open(PLAIN, log([...atFirstScrew(PLAIN), ...EMPTIED]));
  press("The port shows");
  expect(screen.getByText(/This is a bleed now: the reservoir fell below its port, so air may have gone in/)).toBeTruthy();
});

test("the last tap can be undone by the pedal, and any of the last from the list", async () => {
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  press("clear as new");
  expect(written()).toHaveLength(1);
  fireEvent.keyDown(document.body, { key: "PageUp" });
  expect(written()).toEqual([]);
  const list = screen.getByText(/^Last taps/).closest("details");
  if (list === null) throw new Error("no list of taps");
  list.open = true;
  await waitFor(() => within(list).getByRole("button", { name: "Put it back" }));
  fireEvent.click(within(list).getByRole("button", { name: "Put it back" }));
  expect(written()).toEqual([{ kind: "mark", point: 0, look: "clear" }]);
});

test("every stroke can be tapped; another key than the pedal's does nothing", async () => {
  tapped.value = true;
  const { written } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  press("No sample here");
  fireEvent.keyDown(document.body, { key: "b" });
  fireEvent.keyDown(document.body, { key: " " });
  expect(written()).toEqual([{ kind: "set_done", point: 0, count: 1 }]);
  // A pedal bounces: a second press at once is the same one.
  fireEvent.keyDown(document.body, { key: " " });
  expect(written()).toHaveLength(1);
});

test("a key pressed in a box to type in stays there", async () => {
  const { written } = await open(PLAIN, log([{ kind: "started", posture: "level" }]));
  press("Go on without");
  press("done before");
  fireEvent.keyDown(screen.getByRole("textbox"), { key: " " });
  expect(written()).toEqual([]);
});

test("with the laptop away the taps wait and are counted; what it refuses is shown and kept", async () => {
  const { server, session } = await open(PLAIN, log(atFirstScrew(PLAIN)));
  server.isAway = true;
  press("dark here");
  await waitFor(() => expect(screen.getByText("Laptop not reachable · 1 tap waits here")).toBeTruthy());
  server.isAway = false;
  server.refuses = "mark";
  await pass(4000);
  await waitFor(() => expect(screen.getByText("The laptop refused one tap")).toBeTruthy());
  expect(screen.getByText("Another tap was kept under the same id. The first one stays.")).toBeTruthy();
  expect(session.standing.value.refused).toHaveLength(1);
});

test("a second device watches, and can take the lead", async () => {
  const { written, server } = await open(PLAIN, log(atFirstScrew(PLAIN), "tablet"));
  expect(screen.getByText("tablet")).toBeTruthy();
  server.events.push(...log([{ kind: "set_done", point: 0, count: 1 }], "tablet").map((event) => ({ ...event, id: laterThan(event.id) })));
  await pass(4000);
  await waitFor(() => expect(document.querySelector(".rhythm-figure")?.textContent).toBe("1"));
  expect([...document.querySelectorAll(".bar-main")].map((one) => one.textContent)).toEqual([
    expect.stringContaining("Go on from here"),
  ]);
  press(/Go on from here/);
  expect(written().at(-1)).toEqual({ kind: "resumed" });
  expect(screen.queryByText("tablet")).toBeNull();
});

/** The same id in a later millisecond. */
function laterThan(id: string): string {
  return `0fff${id.slice(4)}`;
}

test("a screw is done when nothing says no, else it wants a reason", async () => {
  const far: readonly Deed[] = [
    { kind: "set_done", point: 0, count: 5 },
    { kind: "caught", point: 0, ml: 10 },
    { kind: "topped_up", to: "max" },
    { kind: "mark", point: 0, look: "clear" },
  ];
  const { written, session } = await open(PLAIN, log([...atFirstScrew(PLAIN), ...far]));
  expect(session.state.value.turns[0]?.agrees).toBe(false);
  expect(screen.getByText(/They do not agree/)).toBeTruthy();
  press("Done here?");
  press("Done all the same");
  press("the tube runs clear");
  fireEvent.click(bar());
  expect(written()).toEqual([{ kind: "shut", point: 0, is_done: true, reason: "the tube runs clear" }]);
});

test("from the last screw to the rechecks: three ends, none of them a promise", async () => {
  const shut: readonly Deed[] = [
    { kind: "shut", point: 0, is_done: true, reason: null },
    { kind: "at_screw", point: 1 },
    { kind: "shut", point: 1, is_done: false, reason: "out of fluid" },
  ];
  const { session } = await open(SKERRY, log([...atFirstScrew(SKERRY), ...shut]));
  const rolling = SKERRY.gates.filter((gate) => gate.before === "rolling");
  press(/Go on without cycling/);
  rolling.forEach(() => press("Yes"));
  press(/Ready to roll/);
  press(/First stop done/);
  expect(screen.getAllByRole("button", { name: "Firm" })).toHaveLength(SKERRY.follow_ups.length);
  press("Undo: first stop done");
  expect(session.state.value.phase).toBe("ready to roll");
  press(/First stop done/);
  fireEvent.click(screen.getAllByRole("button", { name: "Soft" })[0] as HTMLElement);
  expect(screen.getByText(/Soft: do not ride/)).toBeTruthy();
  expect(screen.queryByText("Close the job")).toBeNull();
  screen.getAllByRole("button", { name: "Firm" }).forEach((button) => fireEvent.click(button));
  press("Close the job");
  press(/Sign the record/);
  expect(session.state.value).toMatchObject({ phase: "closed", signed: { name: "Ada Fenn" } });
  expect(screen.getByText("Signed by Ada Fenn.")).toBeTruthy();
  expect(document.querySelector(".bar-main")).toBeNull();
  await act(async () => void session.write({ kind: "note", text: "cup read late" }));
  expect(screen.getByText("Signed by Ada Fenn. Something was written down since.")).toBeTruthy();
  press(/Sign it again/);
  expect(document.querySelector(".bar-main")).toBeNull();
  expect(document.body.textContent).not.toMatch(/safe to ride/i);
});

test("cautions are in reach from the first gate on", async () => {
  await open(SKERRY, log(opened(SKERRY).slice(0, 1)));
  press("Cautions, more");
  const first = SKERRY.cautions[0]?.split(": ")[0] ?? "no caution";
  expect(screen.getByText(`${first}:`)).toBeTruthy();
  expect(screen.getByText(/The machine's manual, local rules and licensed practice come first/)).toBeTruthy();
  expect(await screen.findByText("It cannot be loaded again.")).toBeTruthy();
  press("Back to the work");
  expect(screen.getByRole("heading", { level: 1 }).textContent).toBe("Before anything is opened");
});

test("the bottle is written down at its gate, and another fluid is warned of", async () => {
  const { written } = await open(PLAIN, log([{ kind: "started", posture: "level" }]));
  press("Yes");
  expect(screen.getByText("The bottle is right.")).toBeTruthy();
  fireEvent.click(screen.getByText("Write the bottle down for the record"));
  const type = (label: string, value: string): boolean => fireEvent.input(screen.getByLabelText(label), { target: { value } });
  type("The label says", "DOT 5");
  expect(screen.getByText(/The plan is for DOT 4/)).toBeTruthy();
  type("The label says", "DOT 4");
  expect(screen.queryByText(/The plan is for DOT 4/)).toBeNull();
  type("Batch or lot", " L-204 ");
  type("Opened on", "2026-04-30");
  press("Write this bottle down");
  expect(written().at(-1)).toEqual({ kind: "bottle", fluid: "DOT 4", batch: "L-204", opened_on: "2026-04-30" });
  expect(screen.getByText("DOT 4, batch L-204, opened on 30 April 2026")).toBeTruthy();
});

test("the ABS unit is told in figures, cycled between two passes, and its fluid led out", async () => {
  const shut: readonly Deed[] = [
    ...atFirstScrew(SKERRY),
    { kind: "shut", point: 0, is_done: true, reason: null },
    { kind: "at_screw", point: 1 },
    { kind: "shut", point: 1, is_done: true, reason: null },
  ];
  const { written } = await open(SKERRY, log(shut));
  expect(screen.getByText("The ABS unit keeps some old fluid.")).toBeTruthy();
  expect(screen.getByText("abs unit: 1.5–4.0 ml of old fluid stay in it, 31 % (19–50) of the unit and 2.7 % (1.7–4.4) of all the fluid in the circuit.")).toBeTruthy();
  expect(screen.getByText(/there is usually no need to cycle it/)).toBeTruthy();
  press("Cycled with the maker's tool");
  expect(screen.getByText("A second pass takes out what the valves let go.")).toBeTruthy();
  expect(screen.getByText(/^left caliper: .* ml after opening it, \d+ strokes until it is past$/)).toBeTruthy();
  fireEvent.click(bar());
  expect(written()).toEqual([
    { kind: "unit_cycled", how: "maker's tool" },
    { kind: "at_screw", point: 0 },
  ]);
});

test("the verdict on bubbles says what suction alone draws, and the rest that this fluid needs", async () => {
  const gas_ml_per_100_ml = { p05: 1.5, p50: 3.8, p95: 7.1 };
  const SECONDS = { ...sheetNamed("plain-seconds"), method: "vacuum", tube: { rest_minutes: 20, gas_ml_per_100_ml } };
  await open(SECONDS, log(atFirstScrew(SECONDS)));
  press("Cautions, more");
  press("Judge the bubbles");
  press("No bubbles");
  press("No bubbles");
  expect(screen.getByText(/let it stand for 20 minutes/)).toBeTruthy();
  press("Not tried");
  expect(screen.getByText(/Sound fluid can give up to 2–7 % of its volume in bubbles/)).toBeTruthy();
});

test("whether it is firm may be answered by a lever test; the answer stays a tap", async () => {
  const shut: readonly Deed[] = [
    { kind: "shut", point: 0, is_done: true, reason: null },
    { kind: "at_screw", point: 1 },
    { kind: "shut", point: 1, is_done: true, reason: null },
  ];
  const { session } = await open(SKERRY, log([...atFirstScrew(SKERRY), ...shut]));
  press(/Go on without cycling/);
  const rolling = SKERRY.gates.filter((gate) => gate.before === "rolling");
  const place = rolling.findIndex(({ id }) => id === "firm");
  expect(place).toBeGreaterThanOrEqual(0);
  rolling.slice(0, place).forEach(() => {
    expect(screen.queryByRole("link", { name: /lever test/ })).toBeNull();
    press("Yes");
  });
  const way = `#/m/${session.machine}/lever/front?job=${session.id}`;
  expect(screen.getByRole("link", { name: "Answer it with a lever test" }).getAttribute("href")).toBe(way);
  act(() => void session.write({ kind: "measured", what: "air left", value: 0.1234, unit: "ml" }));
  expect(screen.getByText("The last lever test found 0.12 ml of air.")).toBeTruthy();
  act(() => void session.write({ kind: "measured", what: "air left, at most", value: 0.251, unit: "ml" }));
  expect(screen.getByText("The last lever test found 0.12 ml of air, at most 0.25 ml.")).toBeTruthy();
  expect(session.state.value.gates["firm"]?.answer ?? null).toBeNull();
  press("Yes");
  expect(session.state.value.gates["firm"]?.answer).toBe("yes");
  rolling.slice(place + 1).forEach(() => press("Yes"));
  press(/Ready to roll/);
  press(/First stop done/);
  expect(screen.getByRole("link", { name: "Another lever test" }).getAttribute("href")).toBe(way);
});

test("a page carried away offers no lever test: nothing there can judge one", async () => {
  const rolling = SKERRY.gates.filter((gate) => gate.before === "rolling");
  const firm = rolling.find(({ id }) => id === "firm");
  if (firm === undefined) throw new Error("the sheet asks for no firm lever");
  const { session } = await open(SKERRY, log(atFirstScrew(SKERRY)));
  const carried = { name: "carried", words: "carried", lacks: [] };
  const { container } = render(<ByLever session={{ ...session, carried }} state={session.state.value} />);
  expect(container.textContent).toBe("");
});

test("a bleed lists where air may sit, and what was seen of it; the lever is offered first", async () => {
  const bleed = sheetNamed("bleed");
  const filled: readonly Deed[] = [...opened(bleed), { kind: "topped_up", to: "max" }];
  await open(bleed, log(opened(bleed)));
  expect(screen.getByRole("link", { name: "Lever test first, to compare with afterwards" })).toBeTruthy();
  cleanup();
  await open(
    bleed,
    log([
      ...filled,
      { kind: "at_screw", point: 0 },
      { kind: "gate", gate: "posture 1", answer: "yes", reason: null },
      { kind: "set_done", point: 0, count: 5 },
      { kind: "mark", point: 0, look: "bubbles" },
    ]),
  );
  const said = screen.getByText("Air: 2 of 3 places still open").closest("details")?.textContent;
  expect(said).toContain("the hose's arch: bubbles seen out");
  expect(said).toContain("the ABS unit: still open");
  expect(said).toContain("the brake light switch: still open Crack its joint.");
  expect(said).toContain("alone for 15 minutes");
});

test("a step of a fill says do, see and stop; nothing comes tells what to check", async () => {
  const fill = sheetNamed("fill");
  const { written } = await open(
    fill,
    log([...opened(fill), { kind: "topped_up", to: "max" }, { kind: "at_screw", point: 0 }]),
  );
  expect(screen.getByText("Stroke until the banjo runs.")).toBeTruthy();
  press("Nothing comes");
  expect(written().at(-1)).toMatchObject({ kind: "gate", gate: "step 1", answer: "no" });
  expect(screen.getByText(/If none comes, stop/).closest("[role=status]")).toBeTruthy();
  fireEvent.click(bar());
  expect(written().at(-1)).toMatchObject({ kind: "gate", gate: "step 1", answer: "yes" });
  expect(bar().textContent).toContain("Lead");
});
