// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { say } from "../../display";
import { Notice } from "../../ui/Notice";
import { givenNames } from "./sentence";

/** When to stop and hand the machine over. */
export function Beyond({ plan }: { readonly plan: FlushPlan }): ComponentChild {
  // what a finding says already is not said again
  const limits = plan.beyond.filter((words) => !plan.findings.includes(words));
  if (limits.length === 0) return null;
  return (
    <Notice kind="stop" title="Beyond this: stop">
      <ul class="findings">
        {limits.map((words) => (
          <li key={words}>{say(words, givenNames(plan))}</li>
        ))}
      </ul>
      <p class="soft">Common practice, no source.</p>
    </Notice>
  );
}
