// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The questions about a circuit, by keyboard, against answers that the server's own tests keep. */
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import type { Question } from "../../src/api/circuits";
import type { MachineDetail } from "../../src/api/machines";
import { Questions } from "../../src/features/describe";
import { axeFaults } from "../axe";
import { good, serve, snapshot, type Sent } from "../plan/bench";

const kept = (): Question[] => snapshot<{ questions: Question[] }>("questions-limpet-front").questions;
const limpet = (revision: number): MachineDetail => ({
  ...snapshot<MachineDetail>("machine-limpet"),
  id: "limpet",
  revision,
});

beforeEach(() => {
  sessionStorage.clear();
  history.replaceState(null, "", "#/m/limpet/describe/front");
});
afterEach(() => void vi.unstubAllGlobals());

function open(ways: Parameters<typeof serve>[2] = {}): readonly Sent[] {
  const sent = serve("limpet", "front", {
    "GET /machines/limpet": () => good(limpet(1)),
    "GET /scene": () => good(snapshot("scene-limpet-front")),
    ...ways,
  });
  render(<Questions id="limpet" circuit="front" />);
  return sent;
}

/** The headings of the questions that are asked, in their order. */
function asked(): string[] {
  const worth = kept().filter((one) => one.given === null && one.per_cent >= 1);
  return worth.map(({ key, words }) => {
    const owner = key.split("/")[1] ?? "";
    return `${owner.charAt(0).toUpperCase()}${owner.slice(1)}: ${words}`;
  });
}

async function heading(name: string | undefined): Promise<void> {
  const found = await screen.findByText(name ?? "there is none", { selector: "h1" });
  await waitFor(() => expect(document.activeElement).toBe(found));
}

test("every question can be left open, best first, and the focus is on each new heading", async () => {
  open();
  const titles = asked();
  expect(titles.length).toBeGreaterThan(2);
  await screen.findByText(titles[0] ?? "", { selector: "h1" });
  for (const next of [...titles.slice(1), "That is all that is worth asking"]) {
    fireEvent.click(screen.getByText("Don't know", { selector: "button" }));
    // Each page comes out of the one before it.
    // oxlint-disable-next-line no-await-in-loop
    await heading(next);
  }
  expect(await axeFaults()).toEqual([]);
});

test("a figure typed and Enter keep the answer and go on", async () => {
  const sent = open({ "PATCH /machines/limpet": () => good(limpet(2)) });
  const [first] = kept();
  const box = await screen.findByLabelText("The value");
  await waitFor(() => {
    fireEvent.keyDown(document.body, { key: "2" });
    expect(document.activeElement).toBe(box);
  });
  fireEvent.input(box, { target: { value: String(first?.high) } });
  fireEvent.submit(box.closest("form") ?? box);
  await heading(asked()[1]);
  expect(sent.find(({ method }) => method === "PATCH")?.body).toMatchObject({
    read_revision: 1,
    changes: [{ key: first?.key, value: first?.high }, ...(first?.also ?? []).map((key) => ({ key, value: first?.high }))],
  });
});

test.each(["99999", "-1", "abc", "", "1 bar", "5/0"])(
  "“%s” cannot be: it is said at the box, which keeps it and gets the focus; nothing is sent",
  async (typed) => {
    const sent = open();
    const box = await screen.findByLabelText<HTMLInputElement>("The value");
    fireEvent.input(box, { target: { value: typed } });
    fireEvent.submit(box.closest("form") ?? box);
    expect(await screen.findByRole("alert")).toBeTruthy();
    expect(document.activeElement).toBe(box);
    expect(box.value).toBe(typed);
    expect(sent.some(({ method }) => method === "PATCH")).toBe(false);
  },
);

test.each([
  ["Put mine in", [1, 4]],
  ["Leave what is there", [1]],
])("somebody saved first: what was typed stays, and “%s” goes on to the next", async (choice, sentAt) => {
  const revisions: number[] = [];
  history.replaceState(null, "", `#/m/limpet/describe/front?${new URLSearchParams({ ask: kept()[0]?.key ?? "" }).toString()}`);
  open({
    "GET /machines/limpet": () => good(limpet(revisions.length === 0 ? 1 : 4)),
    "PATCH /machines/limpet": ({ body }) => {
      const { read_revision: read } = body as { read_revision: number };
      revisions.push(read);
      return read === 4 ? good(limpet(5)) : { status: 409, body: snapshot("refusal-late") };
    },
  });
  const box = await screen.findByLabelText<HTMLInputElement>("The value");
  fireEvent.input(box, { target: { value: "3" } });
  fireEvent.submit(box.closest("form") ?? box);
  expect(await screen.findByText("Somebody changed this machine first")).toBeTruthy();
  expect(screen.getByLabelText<HTMLInputElement>("The value").value).toBe("3");
  expect(await axeFaults()).toEqual([]);
  fireEvent.click(screen.getByRole("button", { name: choice }));
  await heading(asked()[1]);
  expect(revisions).toEqual(sentAt);
  await waitFor(() => expect(screen.queryByText("Somebody changed this machine first")).toBeNull());
});

test("with the server stopped one can go on, and the answer goes out when it is back", async () => {
  vi.useFakeTimers({ shouldAdvanceTime: true });
  let isAway = true;
  open({ "PATCH /machines/limpet": () => (isAway ? "nobody" : good(limpet(2))) });
  const box = await screen.findByLabelText("The value");
  fireEvent.input(box, { target: { value: "3" } });
  fireEvent.submit(box.closest("form") ?? box);
  await heading(asked()[1]);
  expect(screen.getByText(/One answer is kept in this tab; it goes out by itself once the server is back/)).toBeTruthy();
  isAway = false;
  await vi.advanceTimersByTimeAsync(3100);
  await waitFor(() => expect(screen.queryByText(/kept in this tab/)).toBeNull());
  vi.useRealTimers();
});

test("whoever answers faster than the questions are worked out anew is not asked the same again", async () => {
  const never = new Promise<void>(() => undefined);
  let revision = 1;
  let isFirst = true;
  open({
    "GET /questions": async () => {
      if (!isFirst) await never;
      isFirst = false;
      return good(snapshot("questions-limpet-front"));
    },
    "PATCH /machines/limpet": () => good(limpet((revision += 1))),
  });
  const titles = asked();
  await screen.findByText(titles[0] ?? "", { selector: "h1" });
  for (const [position, next] of titles.slice(1, 4).entries()) {
    const typed = titles[position]?.endsWith("pistons") ? "27" : "3";
    fireEvent.input(document.querySelector(".box") ?? document.body, { target: { value: typed } });
    fireEvent.click(screen.getByText(/^Keep/, { selector: "button" }));
    // Each page comes out of the one before it.
    // oxlint-disable-next-line no-await-in-loop
    await heading(next);
  }
  expect(location.hash).toContain(encodeURIComponent("front/"));
});

test("all questions are listed in groups, and rough answers worth a closer look are named at the end", async () => {
  const questions = kept();
  const [rough, ...others] = questions;
  if (!rough) throw new Error("the kept questions are none");
  const answered = others.map((one) => ({ ...one, given: 1, per_cent: 0 }));
  open({ "GET /questions": () => good({ questions: [{ ...rough, given: { low: 1, high: 5 } }, ...answered] }) });
  expect(await screen.findByRole("heading", { level: 1, name: "That is all that is worth asking" })).toBeTruthy();
  const closer = screen.getByRole("list", { name: "A closer look at these would help more" });
  const link = within(closer).getByRole("link");
  expect(link.getAttribute("href")).toBe(`#/m/limpet/describe/front?${new URLSearchParams({ ask: rough.key }).toString()}`);
  const groups = [...document.querySelectorAll(".question-group-title")].map((title) => title.textContent);
  expect(groups).toEqual(["Answered roughly, worth a closer look", "Answered"]);
  const listed = document.querySelectorAll("details .question-list li");
  expect(listed).toHaveLength(questions.length);
});
