// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test, vi } from "vitest";

import fileRefusal from "../../../tests/snapshots/api/refusal-file.json";
import lateRefusal from "../../../tests/snapshots/api/refusal-late.json";
import goneRefusal from "../../../tests/snapshots/api/refusal-gone.json";
import { isConflict, isGone, nothing, request, type Failure } from "./request";
import { record, whole } from "./validate";

function answerWith(status: number, body: string): ReturnType<typeof vi.fn> {
  const fetcher = vi.fn(async () => new Response(status === 204 ? null : body, { status }));
  vi.stubGlobal("fetch", fetcher);
  return fetcher;
}

async function failureOf(status: number, body: unknown): Promise<Failure> {
  answerWith(status, typeof body === "string" ? body : JSON.stringify(body));
  const answer = await request("/api/x", { check: nothing });
  if (answer.ok) throw new Error("it went well");
  return answer.reason;
}

const counted = record({ count: whole });

test("what fits comes through", async () => {
  answerWith(200, '{"count": 3}');
  expect(await request("/api/x", { check: counted })).toEqual({ ok: true, value: { count: 3 } });
});

test("an answer without a body is nothing", async () => {
  answerWith(204, "");
  expect(await request("/api/x", { check: nothing, method: "DELETE" })).toEqual({ ok: true, value: null });
});

test("JSON and text are sent as what they are", async () => {
  const fetcher = answerWith(200, '{"count": 3}');
  await request("/api/x", { check: counted, method: "POST", json: { a: 1 } });
  await request("/api/x", { check: counted, method: "POST", text: "a = 1" });
  expect(fetcher.mock.calls.map(([, init]) => [init.method, init.body, init.headers["Content-Type"]])).toEqual([
    ["POST", '{"a":1}', "application/json"],
    ["POST", "a = 1", "text/plain; charset=utf-8"],
  ]);
});

test("a stopped server has a name of its own", async () => {
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("Failed to fetch")));
  const answer = await request("/api/x", { check: nothing });
  expect(answer).toEqual({ ok: false, reason: { kind: "unreachable" } });
});

test("a proxy that answers for a stopped server means the same", async () => {
  expect(await failureOf(502, "Bad gateway")).toEqual({ kind: "unreachable" });
});

test("an asking that was given up is no failure of the server", async () => {
  const giveUp = new AbortController();
  vi.stubGlobal("fetch", () => {
    giveUp.abort();
    return Promise.reject(new DOMException("given up", "AbortError"));
  });
  await expect(request("/api/x", { check: nothing, signal: giveUp.signal })).rejects.toThrow("given up");
});

test("every problem of a refused file is kept", async () => {
  expect(await failureOf(422, fileRefusal)).toEqual({
    kind: "refused",
    status: 422,
    error: "circuit-file",
    message: fileRefusal.message,
    problems: fileRefusal.problems,
  });
});

test("a conflict and an absence are told apart", async () => {
  const late = await failureOf(409, lateRefusal);
  const gone = await failureOf(404, goneRefusal);
  expect([isConflict(late), isGone(late)]).toEqual([true, false]);
  expect([isConflict(gone), isGone(gone)]).toEqual([false, true]);
});

test("an answer of another version says what does not fit", async () => {
  answerWith(200, '{"count": "three"}');
  expect(await request("/api/x", { check: counted })).toEqual({
    ok: false,
    reason: { kind: "misfit", message: 'count should be a whole number and is "three"' },
  });
});

test("a refusal without a reason is named by its number", async () => {
  expect(await failureOf(500, "<html>")).toEqual({
    kind: "misfit",
    message: "the server answered with 500 and no reason",
  });
});
