// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A server for the tests of this screen: it answers with what the Python tests keep. */
import { vi } from "vitest";

import type { PlanAnswer } from "../../src/api/circuits";
import type { MachineDetail } from "../../src/api/machines";

const kept = import.meta.glob<unknown>("../../../tests/snapshots/api/*.json", {
  eager: true,
  import: "default",
});

/** An answer as the server's tests keep it. */
export function snapshot<Value>(name: string): Value {
  const found = Object.entries(kept).find(([path]) => path.endsWith(`/${name}.json`));
  if (found === undefined) throw new Error(`the server's tests keep no ${name}`);
  return structuredClone(found[1]) as Value;
}

export interface Sent {
  readonly method: string;
  readonly path: string;
  readonly body: unknown;
}

export type Reply = { readonly status: number; readonly body: unknown } | "nobody";
type Way = (sent: Sent) => Reply | Promise<Reply>;

/** Serve one machine; `ways` replace answers by "METHOD /path/end". */
export function serve(machine: string, circuit: string, ways: Record<string, Way> = {}): readonly Sent[] {
  const usual: Record<string, Way> = {
    "GET /fluids": () => good(snapshot("fluids")),
    "GET /techniques": () => good(snapshot("techniques")),
    "GET /questions": () => good(snapshot(`questions-${machine}-${circuit}`)),
    "POST /plan": () => good(snapshot<PlanAnswer>(`plan-${machine}-${circuit}`)),
    [`GET /machines/${machine}`]: () => good({ ...snapshot<MachineDetail>(`machine-${machine}`), id: machine }),
  };
  const all = { ...usual, ...ways };
  const sent: Sent[] = [];
  vi.stubGlobal("fetch", async (path: string, init: RequestInit = {}) => {
    const asked = {
      method: init.method ?? "GET",
      path,
      body: typeof init.body === "string" ? read(init.body) : null,
    };
    sent.push(asked);
    const way = Object.entries(all).find(([name]) => isFor(name, asked));
    if (way === undefined) throw new Error(`nothing answers ${asked.method} ${path}`);
    const reply = await way[1](asked);
    if (init.signal?.aborted) throw init.signal.reason;
    if (reply === "nobody") throw new TypeError("nobody answers");
    const content = reply.body === null ? null : JSON.stringify(reply.body);
    return new Response(content, { status: reply.status });
  });
  return sent;
}

/** Circuit files go as they are, all else as JSON. */
function read(sent: string): unknown {
  try {
    return JSON.parse(sent) as unknown;
  } catch {
    return sent;
  }
}

function isFor(name: string, { method, path }: Sent): boolean {
  const [wanted, end = ""] = name.split(" ");
  return method === wanted && path.endsWith(end);
}

export function good(body: unknown): Reply {
  return { status: 200, body };
}

export function refusal(status: number, error: string, message: string): Reply {
  return { status, body: { error, message, problems: [] } };
}
