// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Taps on their way to the laptop: kept first, sent then, let go only when it names them. */
import type { Taken } from "../api/jobs";
import type { Failure } from "../lib/request";
import type { Result } from "../lib/result";
import { batchesOf } from "./batches";
import type { Drawer, Kept } from "./drawer";

export interface Standing {
  /** Taps the laptop has not named yet. */
  readonly queued: number;
  /** Taps it will not take, with its reason; they stay here. */
  readonly refused: readonly Kept[];
  /** Null until the first answer. */
  readonly reachable: boolean | null;
  /** What it said when it could not keep anything, such as a full disk. */
  readonly trouble: string | null;
  /** Whether the queue outlives a reload. */
  readonly lasts: boolean;
  /** Whether this browser could not write a tap down. */
  readonly unkept: boolean;
}

export interface Outbox {
  readonly add: (...events: readonly Waiting[]) => Promise<void>;
  readonly flush: () => Promise<void>;
  /** All that is still here, refused ones too, as text to save in a file. */
  readonly exported: () => Promise<string>;
  /** Try again what the server refused. */
  readonly retry: () => Promise<void>;
  /** Note whether the laptop answered something else. */
  readonly heard: (reachable: boolean) => void;
}

type Waiting = { readonly id: string };
type Send = (events: readonly unknown[]) => Promise<Result<Taken, Failure>>;

export interface Told {
  readonly onStanding: (standing: Standing) => void;
  /** The laptop has these; they are let go here once this is over. */
  readonly onTaken?: (ids: readonly string[]) => Promise<void>;
}

/** An outbox of one job. One flush runs at a time; a tap during it starts another after it. */
export function outboxOf(job: string, drawer: Drawer, send: Send, told: Told): Outbox {
  // What the database refuses is held here, so that a full phone loses nothing while open.
  const held = new Map<string, Kept>();
  // Tapped, and not written down yet: no moment calls them kept.
  const coming = new Set<string>();
  let standing: Standing = {
    queued: 0,
    refused: [],
    reachable: null,
    trouble: null,
    lasts: drawer.lasts,
    unkept: false,
  };
  let running: Promise<void> | null = null;
  let isAsked = false;

  const all = async (): Promise<readonly Kept[]> => {
    const kept = await drawer.all(job).catch(() => []);
    const ids = new Set(kept.map((entry) => entry.id));
    const extra = [...held.values()].filter((entry) => !ids.has(entry.id));
    return [...kept, ...extra].sort((one, other) => (one.id < other.id ? -1 : 1));
  };
  const tell = async (change: Partial<Standing> = {}): Promise<void> => {
    const entries = await all();
    const refused = entries.filter((entry) => entry.refused !== null);
    const waiting = new Set([...coming, ...entries.map((entry) => entry.id)]);
    standing = { ...standing, queued: waiting.size - refused.length, refused, unkept: held.size > 0, ...change };
    told.onStanding(standing);
  };
  const keep = async (entries: readonly Kept[]): Promise<void> => {
    try {
      await drawer.put(entries);
      entries.forEach((entry) => held.delete(entry.id));
    } catch {
      entries.forEach((entry) => held.set(entry.id, entry));
    }
  };
  const letGo = async (ids: readonly string[]): Promise<void> => {
    ids.forEach((id) => held.delete(id));
    await drawer.remove(ids).catch(() => undefined);
  };

  /** Send one batch; says whether another may follow. */
  const sendSome = async (): Promise<boolean> => {
    const [waiting] = batchesOf((await all()).filter((entry) => entry.refused === null));
    if (waiting === undefined) {
      await tell();
      return false;
    }
    const answer = await send(waiting.map((entry) => entry.event));
    if (!answer.ok) {
      await tell(after(answer.reason));
      return false;
    }
    const named = new Set(waiting.map((entry) => entry.id));
    const accepted = answer.value.accepted.filter((id) => named.has(id));
    const why = new Map(answer.value.refused.map((one) => [one.id, one.why]));
    const refused = waiting.flatMap((entry) => {
      const reason = why.get(entry.id);
      return reason === undefined ? [] : [{ ...entry, refused: reason }];
    });
    await told.onTaken?.(accepted);
    await letGo(accepted);
    if (refused.length > 0) await keep(refused);
    await tell({ reachable: true, trouble: null });
    // A server that names nothing would be asked for ever.
    return accepted.length + refused.length > 0;
  };
  const sendAll = async (): Promise<void> => {
    isAsked = false;
    const isMore = await sendSome();
    if (isMore || isAsked) await sendAll();
  };
  const flush = (): Promise<void> => {
    if (running === null) {
      running = sendAll().finally(() => {
        running = null;
      });
    } else {
      isAsked = true;
    }
    return running;
  };

  return {
    flush,
    add: async (...events) => {
      events.forEach((event) => coming.add(event.id));
      standing = { ...standing, queued: standing.queued + events.length };
      told.onStanding(standing);
      await keep(events.map((event) => ({ id: event.id, job, event, refused: null })));
      events.forEach((event) => coming.delete(event.id));
      await tell();
      await flush();
    },
    exported: async () => {
      const entries = await all();
      const events = entries.map((entry) => entry.event);
      const refused = entries.flatMap(({ id, refused: why }) => (why === null ? [] : [{ id, why }]));
      return JSON.stringify({ format: 1, kind: "bench queue", job, events, refused }, null, 1);
    },
    retry: async () => {
      await keep((await all()).map((entry) => ({ ...entry, refused: null })));
      await flush();
    },
    heard: (reachable) => {
      if (reachable !== standing.reachable) void tell({ reachable });
    },
  };
}

function after(failure: Failure): Partial<Standing> {
  switch (failure.kind) {
    case "unreachable":
      return { reachable: false };
    case "misfit":
      return { reachable: true, trouble: failure.message };
    case "refused":
      return { reachable: true, trouble: failure.message };
  }
}
