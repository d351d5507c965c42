// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Plans that somebody wanted to keep. */
import { request, type Answer } from "../lib/request";
import { listOf, record, text, whole, type Of } from "../lib/validate";
import type { PlanWish } from "./circuits";
import { circuitPath, machinePath } from "./paths";
import { flushPlan, type FlushPlan } from "./plan";

export const keptReceipt = record({ id: text });

const keptPlan = record({
  id: text,
  circuit: text,
  made_at: text,
  machine_revision: whole,
  headline: text,
});
export type KeptPlan = Of<typeof keptPlan>;
export const keptPlans = record({ plans: listOf(keptPlan) });

export function keepPlan(id: string, circuit: string, wish: PlanWish): Answer<Of<typeof keptReceipt>> {
  return request(`${circuitPath(id, circuit)}/plans`, { method: "POST", json: wish, check: keptReceipt });
}

export function listKeptPlans(id: string, signal?: AbortSignal): Answer<Of<typeof keptPlans>> {
  return request(`${machinePath(id)}/plans`, { check: keptPlans, signal });
}

export function getKeptPlan(planId: string, signal?: AbortSignal): Answer<FlushPlan> {
  return request(`/api/plans/${encodeURIComponent(planId)}`, { check: flushPlan, signal });
}
