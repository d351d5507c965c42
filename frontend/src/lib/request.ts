// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { done, failed, type Result } from "./result";
import { listOf, record, text, validate, whole, type Check } from "./validate";

/** One fault in a file: where, what was found, what would do. Line 0 is no single line. */
export interface Problem {
  readonly line: number;
  readonly place: string;
  readonly found: string;
  readonly allowed: string;
}

/** Why a request brought nothing. */
export type Failure =
  /** Nobody answered: the server is stopped or the way to it is gone. */
  | { readonly kind: "unreachable" }
  /** The server answered and said no, in its own words. */
  | {
      readonly kind: "refused";
      readonly status: number;
      readonly error: string;
      readonly message: string;
      readonly problems: readonly Problem[];
    }
  /** The server answered something that this app does not understand. */
  | { readonly kind: "misfit"; readonly message: string };

export type Answer<Value> = Promise<Result<Value, Failure>>;

export interface Call<Value> {
  readonly method?: "GET" | "POST" | "PUT" | "PATCH" | "DELETE";
  /** Sent as JSON. */
  readonly json?: unknown;
  /** Sent as plain text. */
  readonly text?: string;
  readonly signal?: AbortSignal | undefined;
  readonly check: Check<Value>;
}

/** For answers without a body. */
export const nothing: Check<null> = () => null;

const problems = listOf(record({ line: whole, place: text, found: text, allowed: text }));
const refusal = record({ error: text, message: text });

const AHEAD_MS = 10_000;
const askedAhead = new Map<string, Promise<Response>>();

/** Ask before the screen that wants it is there; the first request of the same words takes the answer. */
export function askAhead(path: string, call: Pick<Call<unknown>, "method" | "json">): void {
  const words = wordsOf(path, call);
  const asked = fetch(path, options(call));
  // whoever takes it hears of a failure; nobody else has to
  asked.catch(() => undefined);
  askedAhead.set(words, asked);
  setTimeout(() => askedAhead.delete(words), AHEAD_MS);
}

function takeAhead(path: string, call: Call<unknown>): Promise<Response> | undefined {
  const words = wordsOf(path, call);
  const asked = askedAhead.get(words);
  askedAhead.delete(words);
  return asked;
}

function wordsOf(path: string, call: Pick<Call<unknown>, "method" | "json" | "text">): string {
  return JSON.stringify([path, call.method, call.json, call.text]);
}

/** Ask the server; every way it can go wrong comes back as a Failure. An abort is thrown on. */
export async function request<Value>(path: string, call: Call<Value>): Answer<Value> {
  let response: Response;
  let body: unknown;
  try {
    response = await (takeAhead(path, call) ?? fetch(path, options(call)));
    body = await bodyOf(response);
  } catch (problem) {
    if (call.signal?.aborted === true) throw problem;
    return failed({ kind: "unreachable" });
  }
  if (!response.ok) return failed(refusedBy(response.status, body));
  const answer = validate(call.check, body);
  return answer.ok ? done(answer.value) : failed({ kind: "misfit", message: answer.reason.message });
}

function options(call: Omit<Call<unknown>, "check">): RequestInit {
  const init: RequestInit = { method: call.method ?? "GET", cache: "no-store" };
  if (call.signal !== undefined) init.signal = call.signal;
  if (call.json !== undefined) {
    init.body = JSON.stringify(call.json);
    init.headers = { "Content-Type": "application/json" };
  } else if (call.text !== undefined) {
    init.body = call.text;
    init.headers = { "Content-Type": "text/plain; charset=utf-8" };
  }
  return init;
}

async function bodyOf(response: Response): Promise<unknown> {
  const content = await response.text();
  if (content === "") return null;
  try {
    return JSON.parse(content);
  } catch {
    return content;
  }
}

function refusedBy(status: number, body: unknown): Failure {
  const said = validate(refusal, body);
  // A proxy in front of a stopped server answers in its place, without our words.
  if (!said.ok) {
    return [502, 503, 504].includes(status)
      ? { kind: "unreachable" }
      : { kind: "misfit", message: `the server answered with ${status} and no reason` };
  }
  const listed = validate(record({ problems }), body);
  return {
    kind: "refused",
    status,
    error: said.value.error,
    message: said.value.message,
    problems: listed.ok ? listed.value.problems : [],
  };
}

/** Whether somebody else saved first. */
export function isConflict(failure: Failure): boolean {
  return failure.kind === "refused" && failure.status === 409;
}

/** Whether what was asked for is not there. */
export function isGone(failure: Failure): boolean {
  return failure.kind === "refused" && failure.status === 404;
}
