// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** From a draft to what it says, or to what stands in the way. */
import { getLever, judgeLever, type LeverResult, type Readings } from "../../api/levers";
import type { LeverDraft } from "../../drafts";
import type { Failure } from "../../lib/request";
import { done, failed, type Result } from "../../lib/result";
import { fromShown } from "../../lib/units";
import { faultsOf, figureIn, gathered, type Fault, type Place } from "./reading";

export interface Told {
  readonly result: LeverResult;
  readonly read: Readings;
}

/** What stands in the way of a result. */
export interface Obstacle {
  readonly failure: Failure | null;
  readonly faults: readonly Fault[];
  readonly whole: readonly string[];
}

export const CLEAR: Obstacle = { failure: null, faults: [], whole: [] };

export async function workedOut(machine: string, circuit: string, draft: LeverDraft): Promise<Result<Told, Obstacle>> {
  const { sets, holds, places, faults } = gathered(draft);
  const [ruler, altitude] = [figureIn(draft.ruler), figureIn(draft.altitude)];
  const whole = [
    ...(ruler === null ? ["The step of the ruler is no figure."] : []),
    ...(altitude === null ? ["The height above the sea is no figure."] : []),
  ];
  if (ruler === null || altitude === null || faults.length > 0) return failed({ ...CLEAR, faults, whole });
  const earlier = draft.against === null ? null : await getLever(machine, circuit, draft.against);
  if (earlier !== null && !earlier.ok) return failed({ ...CLEAR, failure: earlier.reason });
  // an earlier test that was itself a comparison ended with its later readings
  const before = earlier === null ? sets : (earlier.value.readings.after ?? earlier.value.readings.before);
  const read: Readings = {
    before,
    after: earlier === null ? null : sets,
    ruler_mm: Number(fromShown(ruler, "mm", draft.measures).toPrecision(4)),
    altitude_m: altitude,
    holds,
  };
  const answer = await judgeLever(machine, circuit, read);
  if (answer.ok) return done({ result: answer.value, read });
  const ahead = earlier === null ? 0 : before.reduce((sum, one) => sum + one.force_n.length, 0);
  return failed(obstacleOf(answer.reason, places, ahead));
}

function obstacleOf(failure: Failure, places: readonly Place[], ahead: number): Obstacle {
  if (failure.kind !== "refused" || failure.error !== "readings") return { ...CLEAR, failure };
  const { rows, whole } = faultsOf(failure.problems, places, ahead);
  return { failure: null, faults: rows, whole };
}
