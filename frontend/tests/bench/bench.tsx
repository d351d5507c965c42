// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A job at the bench for the tests of its screen, with a server that can be sent away. */
import { render } from "@testing-library/preact";
import { vi } from "vitest";

import type { BenchEvent, Deed } from "../../src/bench/event";
import { idClock } from "../../src/bench/ids";
import { effective } from "../../src/bench/order";
import { jobSheet, type JobSheet } from "../../src/bench/sheet";
import { Bench } from "../../src/features/bench/Bench";
import { sessionOf, type Session } from "../../src/features/bench/session";
import { memoryDrawer } from "../../src/outbox/drawer";

const sheets = import.meta.glob<unknown>("../../../tests/vectors/bench/sheets/*.json", {
  eager: true,
  import: "default",
});

export function sheetNamed(name: string): JobSheet {
  const found = Object.entries(sheets).find(([path]) => path.endsWith(`/${name}.json`));
  if (found === undefined) throw new Error(`no sheet ${name}`);
  return jobSheet(found[1], "");
}

const HAND = { who: "Ada Fenn", device: "phone" };

/** Events an hour ago, one a second. */
export function log(deeds: readonly Deed[], device = HAND.device): readonly BenchEvent[] {
  let now = Date.now() - 3_600_000;
  const clock = idClock(() => (now += 1000));
  return deeds.map((deed): BenchEvent => {
    const stamp = { id: clock.next(), at: new Date(now).toISOString(), who: HAND.who, device };
    return { ...deed, ...stamp };
  });
}

/** Every opening gate of a sheet answered. */
export function opened(sheet: JobSheet): readonly Deed[] {
  const gates = sheet.gates.filter((gate) => gate.before === "opening");
  return [
    { kind: "started", posture: "level" },
    ...gates.map((gate): Deed => ({ kind: "gate", gate: gate.id, answer: "yes", reason: null })),
  ];
}

/** Ready at the first screw, the reservoir filled. */
export function atFirstScrew(sheet: JobSheet): readonly Deed[] {
  return [...opened(sheet), { kind: "drawn_down" }, { kind: "topped_up", to: "max" }, { kind: "at_screw", point: 0 }];
}

export interface Server {
  isAway: boolean;
  /** Kinds it refuses. */
  refuses: string | null;
  readonly events: BenchEvent[];
}

/** Serve one job; what it took is in `events`. */
function serve(given: readonly BenchEvent[]): Server {
  const server: Server = { isAway: false, refuses: null, events: [...given] };
  vi.stubGlobal("fetch", async (path: string, init: RequestInit = {}) => {
    if (server.isAway) throw new TypeError("nobody answers");
    if (path.endsWith("/serving")) return answer(SERVED);
    if (init.method !== "POST") {
      const after = Number(new URL(path, "http://here").searchParams.get("after"));
      return answer({ events: server.events.slice(after), arrival: server.events.length });
    }
    const { events } = JSON.parse(String(init.body)) as { events: BenchEvent[] };
    const refused = events.filter((event) => event.kind === server.refuses);
    const taken = events.filter((event) => event.kind !== server.refuses);
    server.events.push(...taken);
    return answer({
      accepted: taken.map((event) => event.id),
      refused: refused.map((event) => ({ id: event.id, why: "other content" })),
      arrival: server.events.length,
    });
  });
  return server;
}

const SERVED = {
  level: "open page",
  levels: [{ name: "open page", words: "This page stays open in a phone.", lacks: [{ code: "reload", words: "It cannot be loaded again." }] }],
  lan_address: null,
};

function answer(body: unknown): Response {
  return new Response(JSON.stringify(body), { status: 200 });
}

/** Open the bench screen on a job with these events. */
export async function open(
  sheet: JobSheet,
  events: readonly BenchEvent[],
): Promise<{ readonly session: Session; readonly server: Server; readonly written: () => readonly Deed[] }> {
  const server = serve(events);
  const job = {
    id: "job",
    machine_id: "skerry",
    machine_revision: 1,
    made_at: "2026-05-01T09:00:00.000Z",
    sheet,
    events,
    arrival: events.length,
  };
  const session = await sessionOf(job, HAND, memoryDrawer(), true);
  render(<Bench session={session} />);
  const written = (): readonly Deed[] => effective(session.events.value).slice(effective(events).length).map(deedOf);
  return { session, server, written };
}

function deedOf(event: BenchEvent): Deed {
  const { id: _id, at: _at, who: _who, device: _device, ...deed } = event;
  return deed;
}
