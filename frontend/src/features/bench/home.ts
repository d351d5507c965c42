// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Taps that come home as a file: read strictly, sent as any others, each kept once. */
import type { BenchEvent } from "../../bench/event";
import { readEvent } from "../../bench/read";
import type { Failure } from "../../lib/request";
import { done, failed, type Result } from "../../lib/result";
import { listOf, record, text, validate, type Check } from "../../lib/validate";
import { batchesOf } from "../../outbox/batches";
import { LAPTOP, type Keeper } from "./keeper";
import { refusalWords } from "./words";

/** A tap fills about 200 bytes; no job comes near this. */
const MOST_BYTES = 4_000_000;
const MOST_EVENTS = 20_000;
const KIND = "bench queue";
const FORMAT = 1;

/** A tap that does not go in, and why. */
export interface Barred {
  readonly id: string;
  readonly why: string;
}

export interface Taps {
  readonly job: string;
  readonly events: readonly BenchEvent[];
  /** Entries of the file that are no taps. */
  readonly barred: readonly Barred[];
}

export interface Homecoming {
  /** Taps that were new, and taps that were there already. */
  readonly fresh: number;
  readonly there: number;
  readonly refused: readonly Barred[];
  /** Taps that were not sent or not named, and what stood in the way. */
  readonly left: number;
  readonly stopped: Failure | null;
}

const anything: Check<unknown> = (value) => value;
const file = record({ job: text, events: listOf(anything) });
const MOST_LETTERS = 120;
const OTHER_FILE = "It holds no taps. Choose the file that the carried page saved; its name begins with bench-queue.";

/** Read a chosen file, or say in a sentence why it brings no taps. */
export async function openTaps(chosen: File): Promise<Result<Taps, string>> {
  if (chosen.size > MOST_BYTES) {
    return failed(`It has ${(chosen.size / 1_000_000).toFixed(1)} MB, and a job's taps never fill more than ${MOST_BYTES / 1_000_000}. ${OTHER_FILE}`);
  }
  return readTaps(await chosen.text());
}

export function readTaps(content: string): Result<Taps, string> {
  const said = parsed(content);
  if (!isNamed(said) || said["kind"] !== KIND) return failed(OTHER_FILE);
  if (said["format"] !== FORMAT) {
    return failed("It was saved by another version of the page. Bring it to the app that the page came from.");
  }
  const found = validate(file, said);
  if (!found.ok) return failed(`It is damaged: ${found.reason.message}. Save the taps once more on the carried page.`);
  const { job, events } = found.value;
  if (events.length > MOST_EVENTS) {
    return failed(`It holds ${events.length} taps, and a job never has more than ${MOST_EVENTS}.`);
  }
  const read = events.map((event) => ({ event, result: readEvent(event) }));
  return done({
    job,
    events: read.flatMap(({ result }) => (result.ok ? [result.value] : [])),
    barred: read.flatMap(({ event, result }) =>
      result.ok ? [] : [{ id: nameOf(event), why: `Not understood: ${short(result.reason.map((one) => one.words).join("; "))}.` }],
    ),
  });
}

function short(words: string): string {
  return words.length > MOST_LETTERS ? `${words.slice(0, MOST_LETTERS)} …` : words;
}

function parsed(content: string): unknown {
  try {
    return JSON.parse(content);
  } catch {
    return null;
  }
}

function isNamed(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function nameOf(event: unknown): string {
  return isNamed(event) && typeof event["id"] === "string" ? event["id"] : "an entry without a name";
}

/** Send the taps of a file by the way that any device has; twice changes nothing. */
export async function bringHome(taps: Taps, keeper: Keeper = LAPTOP): Promise<Result<Homecoming, Failure>> {
  const before = await keeper.after(taps.job, 0);
  if (!before.ok) return before;
  const known = new Set(before.value.events.map(nameOf));
  const sent = new Set(taps.events.map((event) => event.id));
  const accepted = new Set<string>();
  const refused: Barred[] = [...taps.barred];
  let stopped: Failure | null = null;
  for (const batch of batchesOf(taps.events)) {
    // One after another: what the first says decides whether there is a next.
    // oxlint-disable-next-line no-await-in-loop
    const answer = await keeper.send(taps.job, batch);
    if (!answer.ok) {
      stopped = answer.reason;
      break;
    }
    answer.value.accepted.filter((id) => sent.has(id)).forEach((id) => accepted.add(id));
    refused.push(...answer.value.refused.map(({ id, why }) => ({ id: id ?? "", why: refusalWords(why) })));
  }
  const fresh = [...accepted].filter((id) => !known.has(id)).length;
  const barred = new Set(refused.map((one) => one.id));
  const left = [...sent].filter((id) => !accepted.has(id) && !barred.has(id)).length;
  return done({ fresh, there: accepted.size - fresh, refused, left, stopped });
}
