// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { FlushPlan } from "../../api/plan";
import { Choice } from "../../ui/Choice";
import { Curve } from "./Curve";
import { comesOutGist } from "./gist";
import { Part } from "./Part";
import { StripColumn } from "./StripColumn";

/** What one screw gives, millilitre by millilitre. */
export function ComesOut({ plan }: { readonly plan: FlushPlan }): ComponentChild {
  const [chosen, setChosen] = useState(0);
  const place = Math.min(chosen, plan.points.length - 1);
  const point = plan.points[place];
  if (point === undefined) return null;
  return (
    <Part title={`What comes out${plan.points.length === 1 ? ` of the ${point.at}` : ""}`} gist={comesOutGist(plan)}>
      {plan.points.length > 1 ? (
        <Choice
          legend="At which screw"
          isCompact
          options={plan.points.map(({ at }, step) => ({ value: step, label: `${step + 1}  ${at}` }))}
          value={place}
          onChange={setChosen}
        />
      ) : null}
      <div class="graphs">
        <StripColumn point={point} />
        <Curve point={point} target={plan.target} />
      </div>
    </Part>
  );
}
