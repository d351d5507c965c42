// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The lever test's screen, with answers that the Python tests keep. */
import { act, cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { KeptLever, LeverList, LeverResult } from "../../src/api/levers";
import { measures, scale, words } from "../../src/display";
import { LeverTest } from "../../src/features/lever";
import { bandMiddle, bandRange, type Band } from "../../src/lib/figures";
import { writeMeasured } from "../../src/features/lever/forJob";
import { workedBy } from "../../src/features/lever/told";
import { memoryDrawer } from "../../src/outbox/drawer";
import * as drawers from "../../src/outbox/drawer";
import { axeFaults } from "../axe";

const kept = import.meta.glob<unknown>("../../../tests/snapshots/api/*.json", { eager: true, import: "default" });

function answer<Value>(name: string): Value {
  const found = Object.entries(kept).find(([path]) => path.endsWith(`/${name}.json`));
  if (found === undefined) throw new Error(`the Python tests keep no answer ${name}`);
  return structuredClone(found[1]) as Value;
}

const MACHINE = answer<{ id: string; name: string }>("machine-skerry");
const ONCE = answer<LeverResult>("lever-once");
const AFTER = answer<LeverResult>("lever-after");
const HOLD = answer<LeverResult>("lever-hold");
const KEPT = answer<KeptLever>("kept-lever");
const LIST = answer<LeverList>("levers");
const NONE: LeverList = { tests: [], baseline: null, baselines: [] };

interface Asked {
  readonly method: string;
  readonly path: string;
  readonly body: Record<string, unknown> | null;
}

/** A server that answers as the Python one does; what was asked of it comes back. */
function serve(more: Partial<Record<string, (asked: Asked) => Response>> = {}): readonly Asked[] {
  const seen: Asked[] = [];
  const at = `/api/machines/${MACHINE.id}/circuits/front`;
  const usual: Record<string, (asked: Asked) => Response> = {
    [`GET /api/machines/${MACHINE.id}`]: () => told(MACHINE),
    [`GET ${at}/lever-tests`]: () => told(NONE),
    [`POST ${at}/lever-test`]: ({ body }) => told(body?.["after"] === null ? ONCE : AFTER),
    [`POST ${at}/lever-tests`]: ({ body }) => told({ id: body?.["id"] }, 201),
    ...(more as Record<string, (asked: Asked) => Response>),
  };
  vi.stubGlobal("fetch", async (path: string, init: RequestInit = {}) => {
    const body = typeof init.body === "string" ? (JSON.parse(init.body) as Record<string, unknown>) : null;
    const asked = { method: init.method ?? "GET", path, body };
    seen.push(asked);
    const found = usual[`${asked.method} ${path}`];
    return found === undefined ? told({ error: "no-such-page", message: `${path} leads nowhere` }, 404) : found(asked);
  });
  return seen;
}

function told(body: unknown, status = 200): Response {
  return new Response(JSON.stringify(body), { status });
}

const AT = `/api/machines/${MACHINE.id}/circuits/front`;
const PULL = [
  ["8", "9"],
  ["12", "17"],
  ["20", "24"],
  ["40", "29"],
  ["80", "34"],
] as const;

async function open(hash = ""): Promise<void> {
  location.hash = hash;
  render(<LeverTest id={MACHINE.id} circuit="front" />);
  await screen.findByRole("heading", { name: `Lever test: ${MACHINE.name}, front` });
}

/** "0.28 ml (0.21 to 0.35)" */
const written = (band: Band): string => `${bandMiddle(band)} ml (${bandRange(band).replace("–", " to ")})`;

const press = (name: string | RegExp): boolean => fireEvent.click(screen.getByRole("button", { name }));
const type = (label: string | RegExp, value: string): boolean =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

async function start(): Promise<void> {
  fireEvent.click(await screen.findByRole("button", { name: "Start reading" }));
}

function enter(rows: readonly (readonly [string, string])[]): void {
  rows.forEach(([force, travel], place) => {
    type(new RegExp(`^Force ${place + 1},`), force);
    type(new RegExp(`^Travel ${place + 1},`), travel);
  });
}

beforeEach(() => {
  localStorage.clear();
  vi.stubGlobal("scrollTo", () => undefined);
  vi.stubGlobal("matchMedia", () => ({ matches: true }));
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
  measures.value = "metric";
  words.value = "uk";
  workedBy.value = "lever";
  scale.value = "N";
  location.hash = "";
});

test("the page says first what one needs and what to mind, and promises nothing", async () => {
  serve();
  await open();
  await screen.findByRole("button", { name: "Start reading" });
  expect(screen.getByText(/hooked on the lever 50 mm in from its end/)).toBeTruthy();
  expect(document.body.textContent).not.toMatch(/safe to ride/i);
  expect(await axeFaults()).toEqual([]);
  measures.value = "imperial";
  expect(await screen.findByText(/hooked on the lever 1.97 in in from its end/)).toBeTruthy();
});

test("at a pedal the page speaks of a pedal", async () => {
  serve({ [`GET /api/machines/${MACHINE.id}/circuits/rear/lever-tests`]: () => told(NONE) });
  render(<LeverTest id={MACHINE.id} circuit="rear" />);
  expect(await screen.findByText(/hooked on the pedal 50 mm in from its end/)).toBeTruthy();
  expect(screen.queryByRole("img", { name: /A lever seen from above/ })).toBeNull();
  await start();
  expect(screen.getByText(/^Leave the pedal alone/)).toBeTruthy();
});

test("the next row opens by itself, a row can be mended and taken away", async () => {
  serve();
  await open();
  await start();
  expect(screen.getAllByLabelText(/^Force \d/)).toHaveLength(1);
  enter(PULL);
  expect(screen.getAllByLabelText(/^Force \d/)).toHaveLength(6);
  expect(screen.getByRole("img", { name: /5 readings so far/ })).toBeTruthy();
  press("Remove row 2");
  expect(screen.getAllByLabelText(/^Force \d/).map((box) => (box as HTMLInputElement).value)).toEqual(["8", "20", "40", "80", ""]);
  type("Travel 2, mm", "23");
  fireEvent.keyDown(screen.getByLabelText("Travel 2, mm"), { key: "Enter" });
  expect(document.activeElement).toBe(screen.getByLabelText("Force 3, N"));
  expect(await axeFaults()).toEqual([]);
});

test("readings put away by mistake come back with one press", async () => {
  serve();
  await open();
  await start();
  enter(PULL.slice(0, 2));
  press("Start afresh");
  press("Take the readings back");
  expect((screen.getByLabelText("Travel 2, mm") as HTMLInputElement).value).toBe("17");
  expect(localStorage.getItem(`lever draft of ${MACHINE.id} front`)).toContain('"17"');
});

test("what was typed outlives a reload", async () => {
  serve();
  await open();
  await start();
  enter(PULL.slice(0, 2));
  cleanup();
  await open();
  expect((await screen.findByLabelText("Travel 2, mm") as HTMLInputElement).value).toBe("17");
});

test("kilograms on the scale are sent as newtons, and what is typed is changed with the scale", async () => {
  const asked = serve();
  await open();
  await start();
  enter([...PULL.slice(0, 3), ["98.0665", "30,5"]]);
  fireEvent.click(screen.getByLabelText("kilograms"));
  expect((screen.getByLabelText("Force 4, kg") as HTMLInputElement).value).toBe("10");
  press("Work it out");
  await screen.findByRole("heading", { name: "Where the travel goes" });
  // derived: 0.816 and 1.22 kg, as rewritten to three digits, times 9.80665
  expect(asked.at(-1)?.body).toEqual({
    before: [{ kind: "first", force_n: [8.00223, 11.9641, 20.0056, 98.0665], travel_mm: [9, 17, 24, 30.5] }],
    after: null,
    ruler_mm: 1,
    altitude_m: 0,
    holds: [],
  });
});

test("a hold is read against the clock and a sinking lever stops the work", async () => {
  const asked = serve({ [`POST ${AT}/lever-test`]: () => told(HOLD) });
  await open();
  await start();
  enter(PULL);
  fireEvent.click(screen.getByLabelText(/^Quick hold/));
  type("Force of this hold", "50");
  [["0", "25"], ["10", "27"], ["20", "29"], ["30", "31"], ["45", "34"]].forEach(([second, travel], place) => {
    type(`Seconds ${place + 1}`, second ?? "");
    type(`Travel ${place + 1}, mm`, travel ?? "");
  });
  // what is read again of a pull stands after the holds here and is sent before them
  fireEvent.click(screen.getByLabelText(/^First pull/));
  press("Read this set once more");
  enter(PULL);
  expect(await axeFaults()).toEqual([]);
  press("Work it out");
  const alert = await screen.findByRole("alert");
  expect(alert.textContent).toMatch(/Stop work: the lever sinks.*After a quick pull the lever sinks steadily/);
  const sent = asked.at(-1)?.body ?? {};
  expect((sent["before"] as unknown[]).length).toBe(2);
  expect(sent["holds"]).toEqual([
    { pace: "fast", force_n: 50, seconds: [0, 10, 20, 30, 45], travel_mm: [25, 27, 29, 31, 34] },
  ]);
});

test("a fault of a hold stands at its row, behind the pulls", async () => {
  const problem = { line: 13, place: "hold", found: "the clock goes from 20 to 15 s", allowed: "seconds go up" };
  serve({ [`POST ${AT}/lever-test`]: () => told({ error: "readings", message: "no", problems: [problem] }, 422) });
  await open();
  await start();
  enter(PULL);
  fireEvent.click(screen.getByLabelText(/^Hold/));
  [["0", "25"], ["20", "25"], ["15", "25"]].forEach(([second, travel], place) => {
    type(`Seconds ${place + 1}`, second ?? "");
    type(`Travel ${place + 1}, mm`, travel ?? "");
  });
  fireEvent.click(screen.getByLabelText(/^First pull/));
  press("Read this set once more");
  enter(PULL);
  press("Work it out");
  // derived: ten rows of pulls, then the third of the hold
  expect(await screen.findByText(/The clock goes from 20 to 15 s; seconds go up/)).toBeTruthy();
  expect(screen.getByLabelText("Seconds 3").getAttribute("aria-invalid")).toBe("true");
});

test("a row that cannot be read is told at the row, and nothing is sent", async () => {
  const asked = serve();
  await open();
  await start();
  enter([["8", "9"], ["12", ""], ["x", "24"]]);
  const before = asked.length;
  press("Work it out");
  const box = await screen.findByLabelText("Travel 2, mm");
  await waitFor(() => expect(box.getAttribute("aria-invalid")).toBe("true"));
  const words2 = document.getElementById(box.getAttribute("aria-describedby") ?? "");
  expect(words2?.textContent?.trim()).toBe("The travel of this row is missing.");
  expect(screen.getByText(/“x” is no figure/)).toBeTruthy();
  expect(asked).toHaveLength(before);
  expect(await axeFaults()).toEqual([]);
});

test("what the server says against a row stands at that row, behind the rows of an earlier test", async () => {
  const problem = {
    line: 13,
    place: "first",
    found: "the force goes from 12 to 10 N",
    allowed: "readings go up only; a repeat is a set of its own",
  };
  serve({
    [`GET ${AT}/lever-tests`]: () => told(LIST),
    [`GET ${AT}/lever-tests/${KEPT.id}`]: () => told(KEPT),
    [`POST ${AT}/lever-test`]: () => told({ error: "readings", message: "no", problems: [problem] }, 422),
  });
  await open();
  await start();
  enter([["8", "9"], ["12", "15"], ["10", "20"], ["40", "23"]]);
  fireEvent.change(await screen.findByLabelText("Compare with an earlier test"), { target: { value: KEPT.id } });
  press("Work it out");
  // derived: the kept test has ten rows, so row 13 is the third of this one
  expect(await screen.findByText(/The force goes from 12 to 10 N; readings go up only/)).toBeTruthy();
  expect(screen.getByLabelText("Force 3, N").getAttribute("aria-invalid")).toBe("true");
  expect(screen.getByLabelText("Force 1, N").getAttribute("aria-invalid")).toBe("false");
});

test("the result leads with its sentence and band, and says what it cannot tell", async () => {
  serve();
  await open();
  await start();
  enter(PULL);
  press("Work it out");
  const figure = await screen.findByText("of air, as far as these readings tell.");
  expect(figure.parentElement?.textContent).toBe(`${written(ONCE.air_ml)} of air, as far as these readings tell.`);
  const table = screen.getByRole("table", { name: "Parts of the travel" });
  expect(within(table).getAllByRole("row")).toHaveLength(1 + ONCE.budget.length);
  expect(screen.getByText(ONCE.cannot_tell[0] ?? "")).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
  press("Read: Wedged");
  expect(await screen.findByRole("heading", { name: "Wedged" })).toBeTruthy();
});

test("in inches and fluid ounces every figure is changed, those inside sentences too", async () => {
  serve();
  measures.value = "imperial";
  words.value = "us";
  await open();
  await start();
  enter(PULL);
  press("Work it out");
  await screen.findByText("of air, as far as these readings tell.");
  // derived: millilitres / 28.4130625 and 5 mm / 25.4
  const [, ml] = /^Up to ([\d.]+) ml of air/.exec(ONCE.says[0] ?? "") ?? [];
  const ounces = Number((Number(ml) / 28.4130625).toPrecision(3));
  expect(screen.getByText(`Up to ${ounces} fl oz of air may be in it.`)).toBeTruthy();
  expect(screen.getByText(/keep the lever past its first 0.197 in/)).toBeTruthy();
  expect(screen.getByText(/Look at the pads, the rotor's run-out/)).toBeTruthy();
  const metric = [...document.body.querySelectorAll("p, li, th, td, text")].map((one) => one.textContent ?? "");
  expect(metric.filter((one) => /\d (ml|mm)\b/.test(one))).toEqual([]);
});

test("against an earlier test the headline is what left, before the good state is marked", async () => {
  let baseline: string | null = null;
  const marks: unknown[] = [];
  const asked = serve({
    [`GET ${AT}/lever-tests`]: () => told({ ...LIST, baseline }),
    [`GET ${AT}/lever-tests/${KEPT.id}`]: () => told(KEPT),
  });
  await open();
  await start();
  enter(PULL);
  fireEvent.change(await screen.findByLabelText("Compare with an earlier test"), { target: { value: KEPT.id } });
  press("Work it out");
  const figure = await screen.findByText("of air left the brake.");
  if (AFTER.left_ml === null) throw new Error("the kept document has no difference");
  expect(figure.parentElement?.textContent).toBe(`${written(AFTER.left_ml)} of air left the brake.`);
  const sent = asked.at(-1)?.body ?? {};
  expect(sent["before"]).toEqual(KEPT.readings.before);
  type("Your name", "  Ada Fenn ");
  press("Keep this test");
  expect(await screen.findByText("This test is kept")).toBeTruthy();
  const keptBody = asked.findLast(({ method, path }) => method === "POST" && path.endsWith("/lever-tests"))?.body ?? {};
  expect(keptBody).toMatchObject({ ...sent, who: "Ada Fenn", job_id: null });
  expect(keptBody["id"]).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7/);
  expect(localStorage.getItem(`lever draft of ${MACHINE.id} front`)).toBeNull();
  const fetchBefore = globalThis.fetch;
  vi.stubGlobal("fetch", async (path: string, init: RequestInit = {}) => {
    if (init.method !== "PUT") return fetchBefore(path, init);
    marks.push([path, JSON.parse(String(init.body))]);
    baseline = String(keptBody["id"]);
    return told({ id: baseline });
  });
  press("Make it the good state");
  expect(await screen.findByText(/It is this machine's good state/)).toBeTruthy();
  expect(marks).toEqual([[`${AT}/lever-tests/${String(keptBody["id"])}/baseline`, { who: "Ada Fenn" }]]);
});

test("a test that could not be sent is tried again under the same id, after a reload too", async () => {
  let isAway = true;
  const asked = serve({
    [`POST ${AT}/lever-tests`]: ({ body }) =>
      isAway ? new Response("", { status: 503 }) : told({ id: body?.["id"] }, 201),
  });
  const ids = (): readonly unknown[] =>
    asked.filter(({ method, path }) => method === "POST" && path.endsWith("/lever-tests")).map(({ body }) => body?.["id"]);
  await open();
  await start();
  enter(PULL);
  press("Work it out");
  await screen.findByRole("heading", { name: "Keep it" });
  type("Your name", "Ada Fenn");
  press("Keep this test");
  expect(await screen.findByText("The readings are still on this device.")).toBeTruthy();
  cleanup();
  isAway = false;
  await open();
  fireEvent.click(await screen.findByRole("button", { name: "Work it out" }));
  fireEvent.click(await screen.findByRole("button", { name: "Keep this test" }));
  await screen.findByText("This test is kept");
  expect(ids()).toHaveLength(2);
  expect(new Set(ids()).size).toBe(1);
});

test("a brake that took in air since says so, in its own words and once", async () => {
  const left = AFTER.left_ml ?? ONCE.air_ml;
  const more = { ...AFTER, left_ml: { p05: -left.p95, p50: -left.p50, p95: -left.p05 } };
  const says = ["0.29 ml more air is in it than before (0.26 to 0.32).", ...AFTER.says.slice(1)];
  serve({ [`POST ${AT}/lever-test`]: () => told({ ...more, says }) });
  await open();
  await start();
  enter(PULL);
  press("Work it out");
  const figure = await screen.findByText("more air is in it than before.");
  expect(figure.parentElement?.textContent).toBe(`${written(left)} more air is in it than before.`);
  expect(screen.queryByText(says[0] ?? "")).toBeNull();
});

test("other readings are another test, with an id of their own", async () => {
  const asked = serve({ [`POST ${AT}/lever-tests`]: () => new Response("", { status: 503 }) });
  const tryToKeep = async (): Promise<unknown> => {
    fireEvent.click(await screen.findByRole("button", { name: "Work it out" }));
    await screen.findByRole("heading", { name: "Keep it" });
    type("Your name", "Ada Fenn");
    press("Keep this test");
    await screen.findByText("The readings are still on this device.");
    return asked.findLast(({ method, path }) => method === "POST" && path.endsWith("/lever-tests"))?.body?.["id"];
  };
  await open();
  await start();
  enter(PULL);
  const first = await tryToKeep();
  press("Back to the readings");
  type("Travel 5, mm", "35");
  const second = await tryToKeep();
  expect(typeof first).toBe("string");
  expect(second).not.toBe(first);
});

test("an earlier test that was a comparison counts with its later readings", async () => {
  const later = [{ kind: "first", force_n: [8, 12, 20, 40], travel_mm: [9, 14, 18, 20] }];
  const asked = serve({
    [`GET ${AT}/lever-tests`]: () => told(LIST),
    [`GET ${AT}/lever-tests/${KEPT.id}`]: () => told({ ...KEPT, readings: { ...KEPT.readings, after: later } }),
  });
  await open();
  await start();
  enter(PULL);
  fireEvent.change(await screen.findByLabelText("Compare with an earlier test"), { target: { value: KEPT.id } });
  press("Work it out");
  await screen.findByText("of air left the brake.");
  expect(asked.at(-1)?.body?.["before"]).toEqual(later);
});

test("kept tests are drawn against the good state and open as they were", async () => {
  serve({
    [`GET ${AT}/lever-tests`]: () => told(LIST),
    [`GET ${AT}/lever-tests/${KEPT.id}`]: () => told(KEPT),
  });
  await open();
  const table = await screen.findByRole("table", { name: /Air at each kept test/ });
  expect(within(table).getAllByRole("row")).toHaveLength(1 + LIST.tests.length);
  expect(within(table).getAllByText(/the good state/)).toHaveLength(1);
  expect(screen.getByRole("img", { name: /Air from test to test/ })).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
  const last = within(table).getAllByRole("button").at(-1);
  await act(async () => {
    last?.click();
  });
  expect(await screen.findByText(/^Kept on .* by Ann$/)).toBeTruthy();
  expect(screen.queryByRole("button", { name: /^Read:/ })).toBeNull();
  press("Back to the test");
  expect(await screen.findByRole("button", { name: "Start reading" })).toBeTruthy();
});

test("for a job at the bench the log gets the air, and the gate stays the person's", async () => {
  const drawer = memoryDrawer();
  vi.spyOn(drawers, "openDrawer").mockResolvedValue(drawer);
  const later = "ffffffff-0000-7000-8000-000000000001";
  const known = { kind: "paused", id: later, at: "2026-05-01T09:30:00.000Z", who: "Bo", device: "x" };
  const asked = serve({
    "GET /api/jobs/j1": () => told({ error: "unknown-job", message: "not asked for in full here" }, 404),
    "POST /api/jobs/j1/events": ({ body }) => {
      const events = body?.["events"] as readonly { id: string }[];
      return told({ accepted: events.map(({ id }) => id), refused: [], arrival: 1 });
    },
  });
  await drawer.putCopy("j1", { ...jobCopy(), events: [known] });
  await open(`#/m/${MACHINE.id}/lever/front?job=j1`);
  await start();
  enter(PULL);
  press("Work it out");
  await screen.findByRole("heading", { name: "Keep it" });
  type("Your name", "Ada Fenn");
  press("Keep this test");
  expect(await screen.findByText(/The question at the bench is still yours to answer/)).toBeTruthy();
  const sent = asked.filter(({ path }) => path === "/api/jobs/j1/events").flatMap(({ body }) => body?.["events"]);
  const [most, left] = sent as readonly { id: string; device: string }[];
  expect(sent).toHaveLength(2);
  expect(most).toMatchObject({ what: "air left, at most", value: Number(ONCE.air_ml.p95.toPrecision(3)) });
  expect(left).toMatchObject({ kind: "measured", what: "air left", value: Number(ONCE.air_ml.p50.toPrecision(3)), unit: "ml", who: "Ada Fenn" });
  // the name that the bench goes by on this device
  expect(localStorage.getItem("bench device")).toBe(JSON.stringify(left?.device));
  expect((most?.id ?? "") > later && (left?.id ?? "") > (most?.id ?? "")).toBe(true);
  expect(asked.find(({ path }) => path === `${AT}/lever-tests`)).toBeTruthy();
  expect(screen.getByRole("link", { name: "Back to the bench" }).getAttribute("href")).toBe("#/job/j1");
  expect(await drawer.all("j1")).toEqual([]);
});

test("a reload between keeping and the log writes the same two events, not four", async () => {
  const drawer = memoryDrawer();
  vi.spyOn(drawers, "openDrawer").mockResolvedValue(drawer);
  const asked = serve({
    "POST /api/jobs/j1/events": ({ body }) => {
      const events = body?.["events"] as readonly { id: string }[];
      return told({ accepted: events.map(({ id }) => id), refused: [], arrival: 1 });
    },
  });
  const keptTest = "01890000-0000-7000-8000-000000000001";
  await writeMeasured("j1", keptTest, ONCE.air_ml, "Ada Fenn", "d1");
  await writeMeasured("j1", keptTest, ONCE.air_ml, "Ada Fenn", "d1");
  const sent = asked.filter(({ path }) => path === "/api/jobs/j1/events").flatMap(({ body }) => body?.["events"]);
  expect(sent).toHaveLength(4);
  expect(sent.slice(2)).toEqual(sent.slice(0, 2));
  await writeMeasured("j1", keptTest.replace(/1$/, "2"), ONCE.air_ml, "Ada Fenn", "d1");
  const other = asked.filter(({ path }) => path === "/api/jobs/j1/events").flatMap(({ body }) => body?.["events"]).at(-1);
  expect(sent).not.toContainEqual(other);
});

const sheets = import.meta.glob<unknown>("../../../tests/vectors/bench/sheets/skerry-front.json", { eager: true, import: "default" });

function jobCopy(): Record<string, unknown> {
  return { id: "j1", machine_id: MACHINE.id, machine_revision: 1, made_at: "2026-05-01T09:00:00Z", sheet: Object.values(sheets)[0], events: [], arrival: 0 };
}
