// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The talk about a new machine, by keyboard, against answers that the server's own tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { Outline } from "../../src/api/machines";
import { words } from "../../src/display";
import { NewMachine } from "../../src/features/describe";
import { axeFaults } from "../axe";
import { good, serve, snapshot, type Sent } from "../plan/bench";

beforeEach(() => {
  sessionStorage.clear();
  history.replaceState(null, "", "#/new");
});
afterEach(() => {
  vi.unstubAllGlobals();
  words.value = "uk";
});

function open(ways: Parameters<typeof serve>[2] = {}): readonly Sent[] {
  const sent = serve("skerry", "front", {
    "POST /preview": () => good(snapshot("preview")),
    "POST /machines": () => good(snapshot("machine-started")),
    ...ways,
  });
  render(<NewMachine />);
  return sent;
}

/** A key on whatever has the focus; Enter presses a button, as browsers do. */
function press(key: string): void {
  const at = document.activeElement ?? document.body;
  fireEvent.keyDown(at, { key });
  if (key === "Enter" && at instanceof HTMLButtonElement) fireEvent.click(at);
}

/** The label of the card that has the focus. */
function labelled(): string | null | undefined {
  return document.activeElement?.querySelector(".card-label")?.textContent;
}

async function heading(name: string): Promise<HTMLElement> {
  const found = await screen.findByText(name, { selector: "h1" });
  await waitFor(() => expect(document.activeElement).toBe(found));
  return found;
}

test("class first, then one question at a time, by arrows and Enter alone, the focus on each heading", async () => {
  const sent = open();
  await screen.findByRole("heading", { level: 1, name: "What kind of machine is it?" });
  await waitFor(() => {
    press("ArrowDown");
    expect(document.activeElement).toBe(screen.getByRole("button", { name: /^Small/ }));
  });
  press("ArrowUp");
  press("ArrowUp");
  expect(labelled()).toBe("Cruiser");
  press("Enter");
  await heading("What do you call it?");
  press("Enter");
  await heading("How many discs are on the front wheel?");
  press("ArrowRight");
  press("Enter");
  await heading("Where are the pistons of the front caliper?");
  press("ArrowLeft");
  press("ArrowLeft");
  expect(labelled()).toBe("Don't know");
  press("Enter");
  await heading("How does the line divide to the two calipers?");
  for (const next of [
    "Does it have ABS?",
    "What brakes the rear wheel?",
    "Is the clutch worked by fluid?",
    "Which fluid does the reservoir cover ask for?",
    "Is it like this?",
  ]) {
    press("ArrowDown");
    press("Enter");
    // Each page comes out of the one before it.
    // oxlint-disable-next-line no-await-in-loop
    await heading(next);
  }
  press("Enter");
  await heading("Fulmar 600 is kept");
  const outline: Outline = {
    name: "My cruiser",
    bike_class: "cruiser",
    front_discs: 2,
    front_layout: null,
    fork: "splitter",
    abs_unit: true,
    rear_disc: true,
    hydraulic_clutch: true,
    fluid: "DOT 4",
  };
  expect(sent.find(({ path }) => path === "/api/machines")?.body).toEqual({ outline });
});

test("a machine known by its class alone takes three presses", async () => {
  const sent = open();
  fireEvent.click(await screen.findByRole("button", { name: /^Tourer/ }));
  fireEvent.click(await screen.findByRole("button", { name: "Enough: leave the rest open" }));
  fireEvent.click(await screen.findByRole("button", { name: "Keep this machine" }));
  await heading("Fulmar 600 is kept");
  expect(sent.find(({ path }) => path === "/api/machines")?.body).toMatchObject({
    outline: { bike_class: "tourer", front_discs: null, fluid: null },
  });
});

test("a card is heard by its label first", async () => {
  words.value = "us";
  open();
  expect(await screen.findByRole("button", { name: /^Cruiser/ })).toBeTruthy();
  fireEvent.click(screen.getByRole("button", { name: /^Naked/ }));
  fireEvent.click(await screen.findByRole("button", { name: "Go on without a name" }));
  await heading("How many rotors are on the front wheel?");
  const names = within(screen.getByRole("group")).getAllByRole("button");
  expect(names.map((one) => one.querySelector(".card-label")?.textContent)).toEqual(["Two", "One", "None", "Don't know"]);
  expect(screen.getByRole("button", { name: /^Two/ })).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
});

test("what was answered outlives a reload, and can be changed from the end", async () => {
  open();
  fireEvent.click(await screen.findByRole("button", { name: /^Sport/ }));
  fireEvent.click(await screen.findByRole("button", { name: "Enough: leave the rest open" }));
  await heading("Is it like this?");
  fireEvent.click(screen.getByRole("button", { name: "Change: Rear brake" }));
  fireEvent.click(await screen.findByRole("button", { name: /^A drum/ }));
  expect(JSON.parse(sessionStorage.getItem("new machine") ?? "")).toEqual({ bike_class: "sport", rear_disc: false });
});

test("a name that is too long is refused at its box", async () => {
  open();
  fireEvent.click(await screen.findByRole("button", { name: /^Sport/ }));
  const box = await screen.findByLabelText("Its name");
  fireEvent.input(box, { target: { value: "x".repeat(81) } });
  fireEvent.click(screen.getByRole("button", { name: "Go on" }));
  expect(screen.getByText("That is 81 letters: at most 80 fit.")).toBeTruthy();
  expect(document.activeElement).toBe(box);
});

test("with the server stopped the answers stay, and are sent again on request", async () => {
  let isAway = true;
  open({ "POST /machines": () => (isAway ? "nobody" : good(snapshot("machine-started"))) });
  fireEvent.click(await screen.findByRole("button", { name: /^Sport/ }));
  fireEvent.click(await screen.findByRole("button", { name: "Enough: leave the rest open" }));
  fireEvent.click(await screen.findByRole("button", { name: "Keep this machine" }));
  expect(await screen.findByText("Your answers are still here, in this tab.")).toBeTruthy();
  isAway = false;
  fireEvent.click(screen.getByRole("button", { name: "Try again" }));
  await heading("Fulmar 600 is kept");
});

test("the drawing says what the last answer added", async () => {
  const usual = snapshot<{ scenes: { circuit: string; scene: { parts: { owner: string }[] } }[] }>("preview");
  const plain = structuredClone(usual);
  const front = plain.scenes.find(({ circuit }) => circuit === "front");
  if (!front) throw new Error("the kept preview has no front");
  const taken = front.scene.parts.at(-1)?.owner ?? "";
  front.scene.parts = front.scene.parts.slice(0, -1);
  let isFirst = true;
  open({
    "POST /preview": () => {
      const answer = good(isFirst ? plain : usual);
      isFirst = false;
      return answer;
    },
  });
  fireEvent.click(await screen.findByRole("button", { name: /^Naked/ }));
  expect(await screen.findByText(/The front brake so far, by height/)).toBeTruthy();
  fireEvent.click(await screen.findByRole("button", { name: "Go on without a name" }));
  fireEvent.click(await screen.findByRole("button", { name: /^Two/ }));
  expect(await screen.findByText(`Just added: ${taken}.`)).toBeTruthy();
});
