// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { listKeptPlans, type KeptPlan } from "../../api/kept";
import type { MachineDetail } from "../../api/machines";
import { dayShown, say } from "../../display";
import { to } from "../../routes";
import { useResource } from "../../ui/resource";

/** Plans that were kept, newest first; nothing where there are none. */
export function KeptPlans({ machine }: { readonly machine: MachineDetail }): ComponentChild {
  const kept = useResource((signal) => listKeptPlans(machine.id, signal), [machine.id]);
  const plans = kept.value?.plans ?? [];
  if (plans.length === 0) return null;
  return (
    <section aria-labelledby="kept-title">
      <h2 id="kept-title">Plans you kept</h2>
      <ul class="kept">
        {plans.map((plan) => (
          <li key={plan.id}>
            <a class="kept-link" href={to.kept(machine.id, plan.id)}>
              {dayShown(plan.made_at)}, {plan.circuit}
            </a>
            <strong>{say(plan.headline)}</strong>
            {isOlder(plan, machine) ? <span class="soft">The machine was changed since.</span> : null}
          </li>
        ))}
      </ul>
    </section>
  );
}

function isOlder(plan: KeptPlan, machine: MachineDetail): boolean {
  return plan.machine_revision < machine.revision;
}
