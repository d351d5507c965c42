// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { say } from "../../display";
import { Notice } from "../../ui/Notice";
import { asSentence, givenNames } from "./sentence";

/** What needs a look before the work; it stands before every figure. */
export function Findings({ plan }: { readonly plan: FlushPlan }): ComponentChild {
  if (plan.findings.length === 0) return null;
  return (
    <Notice kind="stop" title="Look at this first">
      <ul class="findings">
        {plan.findings.map((finding) => (
          <li key={finding}>{say(asSentence(finding), givenNames(plan))}</li>
        ))}
      </ul>
    </Notice>
  );
}
