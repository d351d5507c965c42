// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { bandAmount } from "../../display";
import { bandRange, perCent } from "../../lib/figures";

/** On a narrow screen: the figures that the offers change, in sight while one chooses. */
export function NowBar({ plan, doing }: { plan: FlushPlan; doing: string | null }): ComponentChild {
  return (
    <p class="now-bar not-printed" aria-hidden="true">
      <NowFigure plan={plan} />
      <span class="now-bar-time">{doing ? "working it out …" : `${bandRange(plan.minutes)} min`}</span>
    </p>
  );
}

function NowFigure({ plan }: { plan: FlushPlan }): ComponentChild {
  const [figure, words] = plan.fill
    ? [bandAmount(plan.fill.volume_ml, "ml"), "to fill it"]
    : [perCent(plan.left_old.whole), "old"];
  return (
    <span>
      <strong>{figure}</strong> {words}
    </span>
  );
}
