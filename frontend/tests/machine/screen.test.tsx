// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** A machine's page against answers that the server's own tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { MachineDetail } from "../../src/api/machines";
import { measures, words } from "../../src/display";
import { keepDraft, recallDraft } from "../../src/drafts";
import { MachinePage } from "../../src/features/machine";
import { lastRemoved } from "../../src/removed";
import { axeFaults } from "../axe";
import { good, serve, snapshot, type Sent } from "../plan/bench";

const skerry = (): MachineDetail => ({ ...snapshot<MachineDetail>("machine-skerry"), id: "skerry" });

beforeEach(() => history.replaceState(null, "", "#/m/skerry"));
afterEach(() => {
  vi.unstubAllGlobals();
  words.value = "uk";
  measures.value = "metric";
  lastRemoved.value = null;
});

function open(ways: Parameters<typeof serve>[2] = {}): readonly Sent[] {
  const sent = serve("skerry", "front", {
    "GET /scene": ({ path }) => good(snapshot(path.includes("clutch") ? "scene-skerry-clutch" : "scene-skerry-front")),
    "GET /plans": () => good(snapshot("plans")),
    ...ways,
  });
  render(<MachinePage id="skerry" />);
  return sent;
}

async function write(text: string): Promise<HTMLTextAreaElement> {
  const box = await screen.findByLabelText<HTMLTextAreaElement>("The file of Skerry 1100");
  fireEvent.input(box, { target: { value: text } });
  return box;
}

const save = (): void => void fireEvent.click(screen.getByRole("button", { name: "Save the file" }));

test("each circuit is drawn and told: its fluid, its screws, how well it is known, where to go", async () => {
  open();
  expect(await screen.findAllByRole("img")).toHaveLength(3);
  const front = screen.getByRole("region", { name: "front worked by the lever" });
  const facts = [...front.querySelectorAll("dl > div")].map((fact) => fact.textContent);
  expect(facts).toEqual([
    "FluidDOT 4, filled on 20 April 2024",
    "AllowedDOT 4 or DOT 5.1",
    "Bleed nipplesleft caliper, right caliper",
    "Known43 of 48 sizes known",
  ]);
  const ways = within(front).getAllByRole("link").map((link) => link.getAttribute("href"));
  expect(ways).toEqual(["#/m/skerry/plan/front", "#/m/skerry/describe/front", "#/m/skerry/level/front", "#/m/skerry/lever/front"]);
  expect(screen.getByText("6 % (5–9) stays old; 62–70 ml go through")).toBeTruthy();
  expect(screen.getByRole("link", { name: "Take the file out" }).getAttribute("href")).toBe("/api/machines/skerry/file");
  expect(await axeFaults()).toEqual([]);
});

test("in American words and imperial measures", async () => {
  words.value = "us";
  measures.value = "imperial";
  open();
  expect((await screen.findAllByText("Bleeder screws")).length).toBe(3);
  expect(screen.getByText("DOT 4, filled on May 10, 2022")).toBeTruthy();
  await waitFor(() => expect(document.querySelector(".scene-soft")?.textContent).toMatch(/^\d+( in)?$/));
});

test("a saved file is sent with the revision it was read at", async () => {
  const sent = open({ "PUT /file": () => good({ ...skerry(), revision: 2, text: "new" }) });
  await write("new");
  save();
  expect(await screen.findByText("Saved")).toBeTruthy();
  expect(sent.find(({ method }) => method === "PUT")?.body).toEqual({ read_revision: 1, text: "new" });
  expect(recallDraft("skerry")).toBeNull();
});

test("when somebody saved first both texts are shown and what was typed stays, until one is chosen", async () => {
  let isOvertaken = false;
  const sent = open({
    "GET /machines/skerry": () => good(isOvertaken ? { ...skerry(), revision: 5, text: "a\ntheirs\n" } : skerry()),
    "PUT /file": ({ body }) => {
      const { read_revision: read, text } = body as { read_revision: number; text: string };
      if (read === 5) return good({ ...skerry(), revision: 6, text });
      isOvertaken = true;
      return { status: 409, body: snapshot("refusal-late") };
    },
  });
  const box = await write("a\nmine\n");
  save();
  const notice = await screen.findByText("Somebody saved this machine first");
  const apart = within(screen.getByRole("list", { name: "Where the two texts differ" })).getAllByRole("listitem");
  expect(apart.map((line) => line.textContent)).toEqual(["theirstheirs", "yoursmine"]);
  expect(box.value).toBe("a\nmine\n");
  expect(recallDraft("skerry")).toEqual({ read_revision: 1, text: "a\nmine\n" });
  expect(await axeFaults()).toEqual([]);
  expect(notice.closest("[role=alert]")).toBeTruthy();
  fireEvent.click(screen.getByRole("button", { name: "Save yours over theirs" }));
  expect(await screen.findByText("Saved")).toBeTruthy();
  expect(sent.filter(({ method }) => method === "PUT").map(({ body }) => body)).toEqual([
    { read_revision: 1, text: "a\nmine\n" },
    { read_revision: 5, text: "a\nmine\n" },
  ]);
});

test("every fault of a file is listed by line, and nothing typed is lost", async () => {
  open({ "PUT /file": () => ({ status: 422, body: snapshot("refusal-file") }) });
  const box = await write("a\nb\nc\nclass = 'sprot'\nmass_kg = -1\n");
  save();
  expect(within(await screen.findByRole("alert")).getAllByRole("listitem")).toHaveLength(3);
  expect(box.getAttribute("aria-invalid")).toBe("true");
  expect(box.value).toContain("sprot");
});

test("with the server stopped what was typed is kept in this browser", async () => {
  open({ "PUT /file": () => "nobody" });
  await write("typed");
  save();
  expect(await screen.findByText("What you wrote is kept in this browser until it is saved.")).toBeTruthy();
  expect(recallDraft("skerry")?.text).toBe("typed");
});

test("a draft from before is there again, and says so", async () => {
  keepDraft("skerry", { read_revision: 1, text: "from before" });
  open();
  expect(await screen.findByText(/What you wrote here last time was not saved yet/)).toBeTruthy();
  expect(screen.getByLabelText<HTMLTextAreaElement>("The file of Skerry 1100").value).toBe("from before");
});

test("a link to a removed machine says so, and gives back what was being written for it", async () => {
  keepDraft("skerry", { read_revision: 1, text: "my words" });
  const sent = open({
    "GET /machines/skerry": () => ({ status: 404, body: snapshot("refusal-gone") }),
    "POST /file": () => good(snapshot("machine-started")),
  });
  expect(await screen.findByRole("heading", { name: "This machine is not here any more" })).toBeTruthy();
  expect(screen.getByText("my words")).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
  fireEvent.click(screen.getByRole("button", { name: "Bring it in as a new machine" }));
  await waitFor(() => expect(location.hash).toBe("#/m/id-1"));
  expect(sent.at(-1)?.body).toBe("my words");
});

test("removing takes two steps, says what cannot be put back, and keeps the file for the way back", async () => {
  const sent = open({ "DELETE /machines/skerry?read_revision=1": () => ({ status: 200, body: null }) });
  fireEvent.click(await screen.findByRole("button", { name: "Remove this machine" }));
  expect(await screen.findByText(/The plan you kept with it cannot be put back/)).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
  expect(sent.some(({ method }) => method === "DELETE")).toBe(false);
  fireEvent.click(screen.getByRole("button", { name: "Remove Skerry 1100 now" }));
  await waitFor(() => expect(location.hash).toBe("#/"));
  expect(lastRemoved.value).toEqual({ name: "Skerry 1100", text: skerry().text });
});

test("a removal that somebody overtook takes nothing away", async () => {
  open({ "DELETE /machines/skerry?read_revision=1": () => ({ status: 409, body: snapshot("refusal-late") }) });
  fireEvent.click(await screen.findByRole("button", { name: "Remove this machine" }));
  fireEvent.click(screen.getByRole("button", { name: "Remove Skerry 1100 now" }));
  expect(await screen.findByText(/was changed meanwhile/)).toBeTruthy();
  expect(location.hash).toBe("#/m/skerry");
});
