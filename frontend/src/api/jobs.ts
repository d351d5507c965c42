// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Jobs at the bench: start one, read it, add what happened. */
import { jobSheet } from "../bench/sheet";
import { request, type Answer } from "../lib/request";
import { listOf, orNull, record, text, whole, type Check, type Of } from "../lib/validate";
import type { Posture } from "../bench/event";
import type { PlanWish } from "./circuits";
import { circuitPath } from "./paths";

/** Events are judged one by one by the fold's own reader, so that one bad event hides no good one. */
const asItCame: Check<unknown> = (value) => value;

export const job = record({
  id: text,
  machine_id: text,
  machine_revision: whole,
  made_at: text,
  sheet: jobSheet,
  events: listOf(asItCame),
  arrival: whole,
});
export type Job = Of<typeof job>;

const someEvents = record({ events: listOf(asItCame), arrival: whole });
const taken = record({
  accepted: listOf(text),
  refused: listOf(record({ id: orNull(text), why: text })),
  arrival: whole,
});
export type Taken = Of<typeof taken>;

const jobList = record({
  jobs: listOf(
    record({
      id: text,
      machine_id: text,
      bike: text,
      circuit: text,
      made_at: text,
      phase: text,
      open: listOf(text),
    }),
  ),
});

export interface Start extends PlanWish {
  readonly who: string;
  readonly device: string;
  readonly posture: Posture;
}

export function jobPath(id: string): string {
  return `/api/jobs/${encodeURIComponent(id)}`;
}

export function startJob(machine: string, circuit: string, start: Start): Answer<Job> {
  return request(`${circuitPath(machine, circuit)}/jobs`, { method: "POST", json: start, check: job });
}

export function getJob(id: string, signal?: AbortSignal): Answer<Job> {
  return request(jobPath(id), { check: job, signal });
}

export function listJobs(signal?: AbortSignal): Answer<Of<typeof jobList>> {
  return request("/api/jobs", { check: jobList, signal });
}

export function eventsAfter(id: string, arrival: number, signal?: AbortSignal): Answer<Of<typeof someEvents>> {
  return request(`${jobPath(id)}/events?after=${arrival}`, { check: someEvents, signal });
}

export function sendEvents(id: string, events: readonly unknown[]): Answer<Taken> {
  return request(`${jobPath(id)}/events`, { method: "POST", json: { events }, check: taken });
}
