// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The record of a job, told by the server from its log. */
import { request, type Answer } from "../lib/request";
import { listOf, number, oneOf, orElse, orNull, record, text, whole, yesNo, type Of } from "../lib/validate";
import { jobPath } from "./jobs";
import { band } from "./shapes";

const mark = record({ look: oneOf("dark", "bubbles", "clear"), at_ml: band, named: listOf(text), disagrees: orNull(text), event: text });
export type RecordMark = Of<typeof mark>;

const screw = record({
  at: text,
  count: whole,
  out_ml: band,
  cup_ml: orNull(number),
  sample_ml: number,
  topups: whole,
  bubbles: whole,
  marks: listOf(mark),
  tube: orNull(text),
  new_share: band,
  evidence: listOf(record({ id: text, says: oneOf("yes", "no", "unknown") })),
  agrees: yesNo,
  is_shut: yesNo,
  is_done: yesNo,
  reason: orNull(text),
});
export type RecordScrew = Of<typeof screw>;

const gate = record({
  id: text,
  before: oneOf("opening", "screw", "shutting", "rolling"),
  words: text,
  answer: orNull(text),
  reason: orNull(text),
  who: orNull(text),
  at: orNull(text),
});
export type RecordGate = Of<typeof gate>;

const entry = record({ event: text, at: text, who: text, kind: text, said: text });
export type RecordEntry = Of<typeof entry>;

const benchRecord = record({
  format: oneOf(1),
  kind: oneOf("record"),
  bike: text,
  circuit: text,
  made_on: text,
  work: text,
  work_why: orNull(text),
  method: text,
  technique: text,
  fluid: text,
  target: number,
  unit: text,
  phase: text,
  began_at: orNull(text),
  last_at: orNull(text),
  people: listOf(text),
  screws: listOf(screw),
  corrected: listOf(screw),
  topups: whole,
  bottles: listOf(record({ event: text, fluid: text, batch: orNull(text), opened_on: orNull(text) })),
  cycled: listOf(text),
  air: orElse(listOf(record({ id: text, words: text, says: text })), []),
  gates: listOf(gate),
  ends: listOf(record({ end: text, at: text, who: text, reason: orNull(text) })),
  follow_ups: listOf(
    record({ id: text, words: text, due_at: orNull(text), answer: orNull(text), reason: orNull(text) }),
  ),
  doubts: listOf(record({ code: text, event: text })),
  notes: listOf(record({ event: text, text })),
  measured: listOf(record({ event: text, what: text, value: number, unit: text })),
  photos: listOf(record({ event: text, name: text })),
  corrections: listOf(entry),
  taken_back: listOf(entry),
  signatures: listOf(entry),
  signed_by: orNull(text),
  open: listOf(text),
  cautions: listOf(text),
  says: text,
});
export type BenchRecord = Of<typeof benchRecord>;

export function recordPath(job: string): string {
  return `${jobPath(job)}/record`;
}

export function getRecord(job: string, signal?: AbortSignal): Answer<BenchRecord> {
  return request(recordPath(job), { check: benchRecord, signal });
}
