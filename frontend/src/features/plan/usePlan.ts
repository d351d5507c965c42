// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useRef } from "preact/hooks";

import { makePlan, type PlanAnswer, type PlanWish } from "../../api/circuits";
import { done } from "../../lib/result";
import { useResource, type Resource } from "../../ui/resource";

const PAUSE_MS = 250;

/** A plan, and what was asked for when it was made. */
export interface Planned extends PlanAnswer {
  readonly wish: PlanWish;
}

export interface Planning extends Resource<Planned> {
  /** What the plan was before the last change; null until something was changed. */
  readonly before: Planned | null;
}

/** The plan of a wish; quick changes one after another make one request. */
export function usePlan(id: string, circuit: string, wish: PlanWish, revision: number): Planning {
  const hasAsked = useRef(false);
  const planned = useResource(
    async (signal) => {
      if (hasAsked.current) await pause(signal);
      hasAsked.current = true;
      const answer = await makePlan(id, circuit, wish, signal);
      return answer.ok ? done({ ...answer.value, wish }) : answer;
    },
    [id, circuit, JSON.stringify(wish), revision],
  );
  const seen = useRef<{ now: Planned | null; before: Planned | null }>({ now: null, before: null });
  if (planned.value !== seen.current.now) seen.current = { now: planned.value, before: seen.current.now };
  return { ...planned, before: seen.current.before };
}

function pause(signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(resolve, PAUSE_MS);
    signal.addEventListener("abort", () => {
      clearTimeout(timer);
      reject(signal.reason as Error);
    });
  });
}
