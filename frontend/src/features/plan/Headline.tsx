// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { say } from "../../display";
import { Figure } from "../../ui/Figure";
import { Wait } from "../../ui/Wait";
import { changeWords, givenNames, headlineOf, type Named } from "./sentence";

interface Planned {
  readonly plan: FlushPlan;
  readonly scene: Named;
}

interface Props {
  readonly now: Planned;
  readonly before: Planned | null;
  /** What is being worked out, while it is. */
  readonly doing: string | null;
}

/** The result as a mechanic would say it, and what the last change did to it. */
export function Headline({ now, before, doing }: Props): ComponentChild {
  const { figure, band, sentence } = headlineOf(now.plan, now.scene);
  return (
    <div class="plan-headline">
      <div aria-live="polite" aria-atomic="true">
        <Figure value={figure} {...(band ? { band } : {})}>
          {say(sentence, givenNames(now.plan))}
        </Figure>
        {before ? <p class="plan-change">{changeWords(before.plan, now.plan)}</p> : null}
      </div>
      {doing ? <Wait doing={doing} /> : null}
    </div>
  );
}
