// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the server knows apart from any machine. */
import { request, type Answer } from "../lib/request";
import { listOf, record, text, type Of } from "../lib/validate";
import { method } from "./shapes";

export const status = record({ version: text, words: listOf(text), today: text });
export type Status = Of<typeof status>;

const technique = record({ method, name: text, works: listOf(text), steps: listOf(text), back_suction: text });
export type Technique = Of<typeof technique>;
export const techniqueList = record({ techniques: listOf(technique) });

const fluid = record({ name: text, base: text });
export type Fluid = Of<typeof fluid>;
export const fluidList = record({ fluids: listOf(fluid) });

export function getStatus(signal?: AbortSignal): Answer<Status> {
  return request("/api/status", { check: status, signal });
}

export function listTechniques(signal?: AbortSignal): Answer<Of<typeof techniqueList>> {
  return request("/api/techniques", { check: techniqueList, signal });
}

export function listFluids(signal?: AbortSignal): Answer<Of<typeof fluidList>> {
  return request("/api/fluids", { check: fluidList, signal });
}
