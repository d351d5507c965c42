// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** A look as it is typed, lost connections and reloads included, and what looks say. */
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { LevelReport } from "../../src/api/looks";
import { measures } from "../../src/display";
import { AddLook } from "../../src/features/level/AddLook";
import { Result } from "../../src/features/level/Result";
import leak from "../../../tests/snapshots/api/level-leak.json";
import { axeFaults } from "../axe";

const REPORT = leak as unknown as LevelReport;

beforeEach(() => {
  localStorage.clear();
  measures.value = "metric";
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function open(onKept: () => void = () => undefined): void {
  render(<AddLook machine="m1" circuit="rear" calipers={["rear caliper"]} onKept={onKept} />);
}

function type(label: string, value: string): void {
  fireEvent.input(screen.getByLabelText(label), { target: { value } });
}

/** Answers of a server, one after the other; the bodies sent come back. */
function answers(...given: readonly (Response | Error)[]): readonly { id: string }[] {
  const sent: { id: string }[] = [];
  const left = [...given];
  vi.stubGlobal("fetch", async (_: string, init: RequestInit = {}) => {
    sent.push(JSON.parse(String(init.body)) as { id: string });
    const next = left.shift() ?? new Error("no answer left");
    if (next instanceof Error) throw next;
    return next;
  });
  return sent;
}

test("a half-typed look outlives a reload", () => {
  open();
  type("Thinnest pad", "4.2");
  type("Poured in since the look before", "3");
  cleanup();
  open();
  expect(screen.getByLabelText("Thinnest pad")).toHaveProperty("value", "4.2");
  expect(screen.getByLabelText("Poured in since the look before")).toHaveProperty("value", "3");
});

test("a draft for calipers that are no longer there is left aside", async () => {
  const sent = answers(new Response(JSON.stringify({ id: "x" }), { status: 201 }));
  open();
  type("Thinnest pad", "4.2");
  cleanup();
  render(<AddLook machine="m1" circuit="rear" calipers={["new caliper"]} onKept={() => undefined} />);
  expect(screen.getByLabelText("Thinnest pad")).toHaveProperty("value", "");
  type("Thinnest pad", "3.9");
  type("Your name", "Ada Fenn");
  fireEvent.click(screen.getByRole("button", { name: "Keep this look" }));
  await waitFor(() => expect(sent).toHaveLength(1));
  expect(sent[0]).toMatchObject({ pads: { "new caliper": { thin_mm: 3.9, other_mm: null } } });
  expect(JSON.stringify(sent)).not.toContain("rear caliper");
});

test("figures in other units are another draft, and none is taken for the other", () => {
  open();
  type("Thinnest pad", "4.2");
  cleanup();
  measures.value = "imperial";
  open();
  expect(screen.getByLabelText("Thinnest pad")).toHaveProperty("value", "");
});

test("sent again after a cut and a reload it is the same look, and then it is gone", async () => {
  const id = { id: "x" };
  const sent = answers(new TypeError("cut"), new Response(JSON.stringify(id), { status: 201 }));
  const onKept = vi.fn();
  open(onKept);
  type("Thinnest pad", "4.2");
  type("Your name", "Ada Fenn");
  fireEvent.click(screen.getByRole("button", { name: "Keep this look" }));
  await screen.findByText("What you typed is still here.");
  cleanup();
  open(onKept);
  fireEvent.click(screen.getByRole("button", { name: "Keep this look" }));
  await waitFor(() => expect(sent).toHaveLength(2));
  expect(sent[1]?.id).toBe(sent[0]?.id);
  await waitFor(() => expect(onKept).toHaveBeenCalled());
  expect(screen.getByLabelText("Thinnest pad")).toHaveProperty("value", "");
});

test("what looks say stands in a list, and little to take out is no stop", async () => {
  const shown = (takeOut: number): void => {
    const pads = REPORT.new_pads === null ? null : { ...REPORT.new_pads, take_out_first_ml: takeOut };
    render(<Result report={{ ...REPORT, findings: [], new_pads: pads }} />);
  };
  shown(0.3);
  const list = screen.getByRole("list", { name: "From look to look" });
  expect(within(list).getAllByText("Not explained")).toHaveLength(REPORT.between.length);
  expect(screen.queryByRole("alert")).toBeNull();
  expect(screen.getByText("Before new pads: take 0.30 ml out first").closest("[role=note]")).not.toBeNull();
  expect(await axeFaults()).toEqual([]);
  cleanup();
  shown(4);
  expect(screen.getByRole("alert").textContent).toContain("take 4.0 ml out first");
});
