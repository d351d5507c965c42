// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import type { PlanWish } from "../../api/circuits";
import type { FlushPlan } from "../../api/plan";
import { listTechniques, type Technique as Row } from "../../api/tables";
import { say } from "../../display";
import { bandRange, perCent } from "../../lib/figures";
import { capital } from "../../lib/words";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Table } from "../../ui/Table";
import { useResource } from "../../ui/resource";

import { useCompared } from "./useCompared";
import type { WishChange } from "../../api/wish";

interface Props {
  readonly id: string;
  readonly plan: FlushPlan;
  readonly wish: PlanWish;
  readonly revision: number;
  readonly onChange: (change: WishChange) => void;
}

/** The ways of working one method side by side; left out where there is only one. */
export function Technique({ id, plan, wish, revision, onChange }: Props): ComponentChild {
  const name = useId();
  const known = useResource(listTechniques, []);
  const { standing, compare } = useCompared(id, plan.circuit, wish, revision);
  const rows = (known.value?.techniques ?? []).filter((row) => row.method === plan.method && row.works.includes(plan.work));
  if (rows.length < 2) return null;
  const others = standing.kind === "done" ? standing.plans : null;
  const planOf = (row: Row): FlushPlan | undefined =>
    row.name === plan.technique ? plan : others?.get(row.name);
  return (
    <div class="offer">
      <h3 id={`${name}-head`}>How you work the screw</h3>
      <div role="radiogroup" aria-labelledby={`${name}-head`}>
        <Table
          caption="The same work by every technique"
          hideCaption
          columns={[{ head: "Technique" }, { head: plan.fill ? "Minutes" : "Stays old, minutes", isFigure: true }]}
          rows={rows.map((row) => [
            <label class="method" key="technique">
              <input
                type="radio"
                name={name}
                checked={row.name === plan.technique}
                onChange={() => onChange({ technique: row.name })}
              />
              <span class="two-lines">
                {say(capital(row.name))}
                <span class="two-lines-second">{airWords(row)}</span>
              </span>
            </label>,
            <Figures key="figures" plan={planOf(row)} />,
          ])}
        />
      </div>
      {standing.kind === "failed" ? (
        <ErrorNotice failure={standing.failure} onAgain={() => void compare(rows.map((row) => row.name))} />
      ) : null}
      {others === null ? (
        <div class="row">
          <Button
            onClick={() => void compare(rows.map((row) => row.name))}
            busy={standing.kind === "asking"}
          >
            Compare them in figures
          </Button>
        </div>
      ) : null}
    </div>
  );
}

function Figures({ plan }: { plan: FlushPlan | undefined }): ComponentChild {
  if (plan === undefined) return <span class="only-heard">not compared yet</span>;
  if (plan.fill) return bandRange(plan.minutes);
  return (
    <span class="two-lines">
      <strong>{perCent(plan.left_old.whole)}</strong>
      <span class="two-lines-second">{bandRange(plan.minutes)} min</span>
    </span>
  );
}

function airWords({ back_suction: risk }: Row): string {
  if (risk === "none") return "no air is drawn back";
  return `air drawn back past the thread: ${risk}`;
}
