// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Pairing a phone, the list of them, and what is refused, on a server that is a table. */
import { act, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

import { Phones } from "../../src/features/phones";
import { axeFaults } from "../axe";

const NOW = new Date(2026, 4, 1, 12).getTime();
const ago = (seconds: number): string => new Date(NOW - 1000 * seconds).toISOString();
const RED = { id: "p1", name: "the red one", made_at: ago(90_000), seen_at: ago(600) };
const BLUE = { id: "p2", name: "Ada's", made_at: ago(1), seen_at: ago(1) };
const LEVELS = [
  { name: "this computer", words: "The app is open on the computer.", lacks: [] },
  { name: "open page", words: "The phone has the page open.", lacks: [{ code: "reload", words: "Keep the page open." }] },
];

type Reply = { readonly status: number; readonly body: unknown };
interface Server {
  level: string;
  lan: string | null;
  phones: (typeof RED)[];
  codes: number;
  readonly ways: Record<string, Reply>;
  readonly asked: string[];
}

let server: Server;

function answerTo(method: string, path: string): Reply {
  const set = server.ways[`${method} ${path}`];
  if (set !== undefined) return set;
  switch (`${method} ${path}`) {
    case "GET /api/serving":
      return { status: 200, body: { level: server.level, levels: LEVELS, lan_address: server.lan } };
    case "GET /api/phones":
      return { status: 200, body: { phones: server.phones } };
    case "POST /api/pairing": {
      server.codes += 1;
      const expires_at = new Date(Date.now() + 120_000).toISOString();
      const code = server.codes === 1 ? "ABCDEFGH" : "JKLMNPQR";
      return { status: 201, body: { code, expires_at, address: `${server.lan}pair`, qr_svg: `<svg id="${code}"/>` } };
    }
    case "DELETE /api/phones/p1":
      server.phones = server.phones.filter(({ id }) => id !== "p1");
      return { status: 204, body: null };
    default:
      throw new Error(`nothing answers ${method} ${path}`);
  }
}

beforeEach(() => {
  vi.useFakeTimers({ shouldAdvanceTime: true, now: NOW });
  server = { level: "this computer", lan: "http://192.168.7.5:8017/", phones: [RED], codes: 0, ways: {}, asked: [] };
  vi.stubGlobal("fetch", async (path: string, init: RequestInit = {}) => {
    const method = init.method ?? "GET";
    server.asked.push(`${method} ${path}`);
    const { status, body } = answerTo(method, path);
    return new Response(body === null ? null : JSON.stringify(body), { status });
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const RED_ONE = ["the red one", { selector: "strong" }] as const;
const press = async (name: string | RegExp): Promise<void> => {
  fireEvent.click(await screen.findByRole("button", { name }));
};
/** Let so many milliseconds go by. */
async function wait(ms: number): Promise<void> {
  await act(async () => {
    await vi.advanceTimersByTimeAsync(ms);
  });
}
const refusal = (status: number, error: string, message: string): Reply => ({ status, body: { error, message } });

test("a code is shown for a camera and for a hand, and counts down", async () => {
  render(<Phones />);
  await press("Show a code");
  const picture = await screen.findByRole("img");
  expect(picture.getAttribute("src")).toBe(`data:image/svg+xml,${encodeURIComponent('<svg id="ABCDEFGH"/>')}`);
  expect(screen.getByText("ABCD EFGH")).toBeTruthy();
  expect(screen.getByText("The code, letter by letter: A B C D E F G H")).toBeTruthy();
  expect(screen.getByText("http://192.168.7.5:8017/pair")).toBeTruthy();
  expect(screen.getByText("2:00")).toBeTruthy();
  await wait(61_000);
  expect(screen.getByText(/^0:5[89]$/)).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
});

test("a code that ran out is gone, and a new one can be made", async () => {
  render(<Phones />);
  await press("Show a code");
  await screen.findByText("ABCD EFGH");
  await wait(121_000);
  expect(screen.queryByRole("img")).toBeNull();
  expect(screen.getByText(/The code has run out/)).toBeTruthy();
  await press("Make a new code");
  expect(await screen.findByText("JKLM NPQR")).toBeTruthy();
});

test("the list is looked at while a code is shown, and the phone that joins is named", async () => {
  render(<Phones />);
  await screen.findByText(...RED_ONE);
  await wait(10_000);
  const looks = (): number => server.asked.filter((one) => one === "GET /api/phones").length;
  expect(looks()).toBe(1);
  await press("Show a code");
  await screen.findByText("ABCD EFGH");
  server.phones = [{ ...BLUE, made_at: new Date().toISOString() }, RED];
  await wait(2500);
  expect(await screen.findByText(/Paired: Ada's/)).toBeTruthy();
  expect(screen.queryByText("ABCD EFGH")).toBeNull();
  const after = looks();
  await wait(10_000);
  expect(looks()).toBe(after);
  // unpaired again, it does not bring its used code back
  server.ways["DELETE /api/phones/p2"] = { status: 204, body: null };
  server.phones = [RED];
  await press("Unpair Ada's");
  await press("Yes, unpair it");
  expect(await screen.findByRole("button", { name: "Show a code" })).toBeTruthy();
  expect(screen.queryByText("ABCD EFGH")).toBeNull();
});

test("a phone says since when it is paired and when it was seen", async () => {
  render(<Phones />);
  const list = within((await screen.findByText(...RED_ONE)).closest("li") as HTMLElement);
  expect(list.getByText("paired on 30 April 2026, last seen 10 minutes ago")).toBeTruthy();
});

test("a second tap unpairs, and the first can be let be", async () => {
  render(<Phones />);
  await press("Unpair the red one");
  await press("Keep it");
  expect(server.asked).not.toContain("DELETE /api/phones/p1");
  await press("Unpair the red one");
  await press("Yes, unpair it");
  expect(await screen.findByText(/Unpaired: the red one/)).toBeTruthy();
  expect(await screen.findByText("No phone is paired.")).toBeTruthy();
  expect(await axeFaults()).toEqual([]);
});

test("a full disk keeps the phone paired and says so", async () => {
  server.ways["DELETE /api/phones/p1"] = refusal(507, "not-written", "machines.db was not written: the disk is full");
  render(<Phones />);
  await press("Unpair the red one");
  await press("Yes, unpair it");
  expect((await screen.findByRole("alert")).textContent).toContain("the disk is full");
  expect(screen.getByText("The phone is still paired.")).toBeTruthy();
  expect(screen.getByText(...RED_ONE)).toBeTruthy();
});

test("a phone already gone is no fault", async () => {
  server.ways["DELETE /api/phones/p1"] = refusal(404, "unknown-phone", "no such phone");
  render(<Phones />);
  await press("Unpair the red one");
  await press("Yes, unpair it");
  expect(await screen.findByText(/Unpaired: the red one/)).toBeTruthy();
});

test("on a phone it says that this is done on the laptop, and what the page lacks", async () => {
  server.level = "open page";
  render(<Phones />);
  expect(await screen.findByText("Phones are paired and taken off on the laptop")).toBeTruthy();
  expect(screen.queryByRole("button")).toBeNull();
  expect(server.asked).toEqual(["GET /api/serving"]);
  const [first] = within(screen.getByRole("heading", { name: "What each way lacks" }).parentElement as HTMLElement).getAllByRole("listitem");
  expect(first?.textContent).toBe("The phone has the page open.This pageKeep the page open.");
  expect(await axeFaults()).toEqual([]);
});

test("without a network it says how to start with one", async () => {
  server.lan = null;
  render(<Phones />);
  expect(await screen.findByText("firmlever serve --lan")).toBeTruthy();
  expect(screen.queryByRole("button", { name: "Show a code" })).toBeNull();
  await waitFor(() => expect(screen.getByText(...RED_ONE)).toBeTruthy());
});

test.each([
  [422, "no-network", "the app answers this computer only"],
  [403, "only-here", "phones are paired and taken off at the computer itself, not from a phone"],
])("a refusal with %i is told in the server's words", async (status, error, message) => {
  server.ways["POST /api/pairing"] = refusal(status, error, message);
  render(<Phones />);
  await press("Show a code");
  expect((await screen.findByRole("alert")).textContent).toContain(message);
});
