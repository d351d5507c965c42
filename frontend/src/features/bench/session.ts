// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** One job open on this device: its log, its state, and the taps on their way. */
import { batch, computed, signal, type ReadonlySignal } from "@preact/signals";

import { job as jobCheck, type Job } from "../../api/jobs";
import type { Level } from "../../api/serving";
import type { BenchEvent, Deed } from "../../bench/event";
import { growing } from "../../bench/grow";
import { idClock } from "../../bench/ids";
import { inOrder } from "../../bench/order";
import { readEvent } from "../../bench/read";
import type { JobSheet } from "../../bench/sheet";
import type { BenchState } from "../../bench/state";
import type { Failure } from "../../lib/request";
import { done, failed, type Result } from "../../lib/result";
import { validate } from "../../lib/validate";
import { openDrawer, type Drawer } from "../../outbox/drawer";
import { outboxOf, type Outbox, type Standing } from "../../outbox/outbox";
import { LAPTOP, type Keeper } from "./keeper";

export const POLL_MS = 2000;

export interface Hand {
  readonly who: string;
  readonly device: string;
}

export interface Session {
  readonly id: string;
  readonly machine: string;
  readonly sheet: JobSheet;
  readonly events: ReadonlySignal<readonly BenchEvent[]>;
  readonly state: ReadonlySignal<BenchState>;
  /** The state as it would be with these events; quick where they go on from the log. */
  readonly stateWith: (events: readonly BenchEvent[]) => BenchState;
  readonly standing: ReadonlySignal<Standing>;
  /** Events that this page does not understand, by what is wrong with them. */
  readonly strange: ReadonlySignal<readonly string[]>;
  readonly hand: Hand;
  /** On a carried page: what that way lacks. */
  readonly carried: Level | null;
  /** Write down what happened; it counts at once here and is on its way to the laptop. */
  readonly write: (...deeds: readonly Deed[]) => readonly string[];
  readonly undo: (target: string) => void;
  readonly outbox: Outbox;
  /** Watch for the events of other devices until told to stop. */
  readonly follow: () => () => void;
}

/** Open a job from the laptop, or from the copy kept here while it is away. */
export async function openSession(id: string, hand: Hand, keeper: Keeper = LAPTOP): Promise<Result<Session, Failure>> {
  const drawer = await openDrawer();
  const found = await keeper.job(id);
  if (found.ok) {
    void drawer.putCopy(id, found.value).catch(() => undefined);
    return done(await sessionOf(found.value, hand, drawer, keeper.carried === null, keeper));
  }
  if (found.reason.kind !== "unreachable") return failed(found.reason);
  const copy = validate(jobCheck, await drawer.copy(id).catch(() => null));
  return copy.ok ? done(await sessionOf(copy.value, hand, drawer, false, keeper)) : failed(found.reason);
}

export async function sessionOf(
  job: Job,
  hand: Hand,
  drawer: Drawer,
  isReachable: boolean,
  keeper: Keeper = LAPTOP,
): Promise<Session> {
  const clock = idClock();
  const { sheet } = job;
  const events = signal<readonly BenchEvent[]>([]);
  const strange = signal<readonly string[]>([]);
  const stateWith = growing(sheet);
  const state = computed(() => stateWith(events.value));
  const standing = signal<Standing>({
    queued: 0,
    refused: [],
    reachable: isReachable,
    trouble: null,
    lasts: drawer.lasts,
    unkept: false,
  });
  let arrival = job.arrival;

  const merge = (more: readonly unknown[]): void => {
    const read = more.map(readEvent);
    const good = read.flatMap((one) => (one.ok ? [one.value] : []));
    const bad = read.flatMap((one) => (one.ok ? [] : [one.reason.map((fault) => fault.words).join("; ")]));
    const all = inOrder([...events.value, ...good]);
    const isNew = all.length > events.value.length;
    good.forEach((event) => clock.saw(event.id));
    batch(() => {
      if (bad.length > 0) strange.value = [...new Set([...strange.value, ...bad])];
      if (isNew) events.value = all;
    });
  };

  // A tap is in the copy before it leaves the outbox: a reload without the laptop finds it in one of them.
  const keepCopy = (): Promise<void> => drawer.putCopy(job.id, { ...job, events: events.value, arrival }).catch(() => undefined);
  const outbox = outboxOf(job.id, drawer, (waiting) => keeper.send(job.id, waiting), {
    onStanding: (next) => {
      standing.value = next;
    },
    onTaken: keepCopy,
  });
  const waiting = await drawer.all(job.id).catch(() => []);
  // Before the first answer, too, nothing that waits may look as if the laptop had it.
  const refused = waiting.filter((entry) => entry.refused !== null);
  standing.value = { ...standing.value, queued: waiting.length - refused.length, refused };
  merge([...job.events, ...waiting.map((entry) => entry.event)]);

  const write = (...deeds: readonly Deed[]): readonly string[] => {
    const made = deeds.map((deed): BenchEvent => {
      const stamp = { id: clock.next(), at: new Date().toISOString(), ...hand };
      return { ...deed, ...stamp };
    });
    // On its way before anything is drawn: the page may be put away in the next moment.
    void outbox.add(...made);
    merge(made);
    return made.map((event) => event.id);
  };
  const poll = async (): Promise<void> => {
    const answer = await keeper.after(job.id, arrival);
    outbox.heard(answer.ok || answer.reason.kind !== "unreachable");
    if (!answer.ok) return;
    if (answer.value.events.length > 0) {
      merge(answer.value.events);
      ({ arrival } = answer.value);
      void keepCopy();
    }
    if (standing.value.queued > 0) await outbox.flush();
  };
  return {
    id: job.id,
    machine: job.machine_id,
    sheet,
    events,
    state,
    stateWith,
    standing,
    strange,
    hand,
    carried: keeper.carried,
    write,
    undo: (target) => void write({ kind: "undone", target }),
    outbox,
    follow: () => following(poll, outbox),
  };
}

/** Ask every two seconds, and at once when the page comes back into sight or the network returns. */
function following(poll: () => Promise<void>, outbox: Outbox): () => void {
  let [isOver, isAsking] = [false, false];
  const ask = (): void => {
    if (isAsking || isOver) return;
    isAsking = true;
    void poll().finally(() => {
      isAsking = false;
    });
  };
  const wake = (): void => {
    if (document.visibilityState === "hidden") return;
    void outbox.flush();
    ask();
  };
  wake();
  const timer = setInterval(ask, POLL_MS);
  document.addEventListener("visibilitychange", wake);
  window.addEventListener("online", wake);
  return () => {
    isOver = true;
    clearInterval(timer);
    document.removeEventListener("visibilitychange", wake);
    window.removeEventListener("online", wake);
  };
}
