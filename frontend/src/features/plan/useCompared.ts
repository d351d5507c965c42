// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useEffect, useRef, useState } from "preact/hooks";

import { makePlan, type PlanWish } from "../../api/circuits";
import type { FlushPlan } from "../../api/plan";
import type { Failure } from "../../lib/request";

export type Compared =
  | { readonly kind: "open" }
  | { readonly kind: "asking" }
  | { readonly kind: "failed"; readonly failure: Failure }
  | { readonly kind: "done"; readonly plans: ReadonlyMap<string, FlushPlan> };

export interface Comparing {
  readonly standing: Compared;
  /** Plan the same work once with each technique. */
  readonly compare: (techniques: readonly string[]) => Promise<void>;
}

/** The same work by several techniques, worked out on request; another wish makes it stale. */
export function useCompared(id: string, circuit: string, wish: PlanWish, revision: number): Comparing {
  const { technique: _chosen, ...rest } = wish;
  const asked = JSON.stringify([id, circuit, rest, revision]);
  const abort = useRef(new AbortController());
  const [standing, setStanding] = useState<Compared>({ kind: "open" });
  useEffect(() => {
    abort.current = new AbortController();
    setStanding({ kind: "open" });
    return () => abort.current.abort();
  }, [asked]);
  const compare = async (techniques: readonly string[]): Promise<void> => {
    const { signal } = abort.current;
    setStanding({ kind: "asking" });
    const found = await planEach(techniques, (technique) => makePlan(id, circuit, { ...rest, technique }, signal));
    if (!signal.aborted) setStanding(found);
  };
  return { standing, compare };
}

/** One after another: the server works out one plan at a time anyway. */
async function planEach(
  techniques: readonly string[],
  plan: (technique: string) => ReturnType<typeof makePlan>,
): Promise<Compared> {
  const plans = new Map<string, FlushPlan>();
  for (const technique of techniques) {
    // oxlint-disable-next-line no-await-in-loop
    const answer = await plan(technique);
    if (!answer.ok) return { kind: "failed", failure: answer.reason };
    plans.set(technique, answer.value.plan);
  }
  return { kind: "done", plans };
}
