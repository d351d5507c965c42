// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { listTechniques, type Technique as Row } from "../../api/tables";
import { say } from "../../display";
import { Choice } from "../../ui/Choice";
import { useResource } from "../../ui/resource";
import type { WishChange } from "./wish";

interface Props {
  readonly plan: FlushPlan;
  readonly onChange: (change: WishChange) => void;
}

/** The ways of working one method; left out where there is only one. */
export function Technique({ plan, onChange }: Props): ComponentChild {
  const known = useResource(listTechniques, []);
  const rows = (known.value?.techniques ?? []).filter((row) => row.method === plan.method);
  if (rows.length < 2) return null;
  return (
    <div class="offer">
      <Choice
        legend="How you work the screw"
        options={rows.map((row) => ({
          value: row.name,
          label: say(row.name.charAt(0).toUpperCase() + row.name.slice(1)),
          hint: airWords(row),
        }))}
        value={plan.technique}
        onChange={(technique) => onChange({ technique })}
      />
    </div>
  );
}

function airWords({ back_suction: risk }: Row): string {
  if (risk === "none") return "no air is drawn back";
  return `air drawn back past the thread: ${risk}`;
}
