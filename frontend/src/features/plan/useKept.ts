// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { getScene, type Scene } from "../../api/circuits";
import { getKeptPlan, listKeptPlans, type KeptPlan } from "../../api/kept";
import { getMachine, type MachineDetail } from "../../api/machines";
import type { FlushPlan } from "../../api/plan";
import type { Answer } from "../../lib/request";
import { done } from "../../lib/result";
import { useResource, type Resource } from "../../ui/resource";

export interface Kept {
  readonly machine: MachineDetail;
  readonly plan: FlushPlan;
  /** When it was kept, and of which revision; null where this machine has no such plan. */
  readonly entry: KeptPlan | null;
  /** The drawing, as long as the machine is still what it was. */
  readonly scene: Scene | null;
}

/** A plan as it was kept, with the machine as it is now. */
export function useKept(id: string, planId: string): Resource<Kept> {
  return useResource((signal) => read(id, planId, signal), [id, planId]);
}

async function read(id: string, planId: string, signal: AbortSignal): Answer<Kept> {
  const [machine, list, plan] = await Promise.all([
    getMachine(id, signal),
    listKeptPlans(id, signal),
    getKeptPlan(planId, signal),
  ]);
  if (!machine.ok) return machine;
  if (!list.ok) return list;
  if (!plan.ok) return plan;
  const entry = list.value.plans.find((one) => one.id === planId) ?? null;
  const kept = { machine: machine.value, plan: plan.value, entry };
  if (entry?.machine_revision !== machine.value.revision) return done({ ...kept, scene: null });
  const scene = await getScene(id, entry.circuit, signal);
  return scene.ok ? done({ ...kept, scene: scene.value }) : scene;
}
