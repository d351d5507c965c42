// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The job that stands inside the page, and what answers for the laptop there. */
import { job, type Job } from "../api/jobs";
import { level, type Level } from "../api/serving";
import type { Keeper } from "../features/bench/keeper";
import { done, failed, type Result } from "../lib/result";
import { oneOf, record, validate } from "../lib/validate";

export interface Carried {
  readonly job: Job;
  readonly level: Level;
}

const carried = record({ kind: oneOf("carried job"), format: oneOf(1), job, level });

/** Read what the server wrote into the page, or say what is wrong with it. */
export function readCarried(content: string | null | undefined): Result<Carried, string> {
  let said: unknown;
  try {
    said = JSON.parse(content ?? "");
  } catch {
    return failed("the page holds no job, or was cut short");
  }
  const found = validate(carried, said);
  return found.ok ? found : failed(found.reason.message);
}

/** Gives the job out of the page and takes nothing: every tap stays on this device. */
export function pageKeeper(page: Carried): Keeper {
  const nobody = async () => failed({ kind: "unreachable" } as const);
  return { job: async () => done(page.job), after: nobody, send: nobody, carried: page.level };
}
