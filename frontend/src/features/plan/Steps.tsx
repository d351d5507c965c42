// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan, PlanPoint } from "../../api/plan";
import { bandAmount, say } from "../../display";
import { bandRange, count, counted } from "../../lib/figures";
import { Table } from "../../ui/Table";
import { givenNames, spanner } from "./sentence";

/** One screw a row, in the order of the work. */
export function Steps({ plan }: { readonly plan: FlushPlan }): ComponentChild {
  const isStroked = plan.points.some((point) => point.strokes !== null);
  return (
    <section class="plan-part">
      <h2>Screw by screw</h2>
      <div class="stacked-table stacked-steps">
        <Table
          caption="What each screw takes, in the order of the work"
          hideCaption
          columns={[
            { head: "Screw" },
            { head: <TwoHeads first="Through it" second={isStroked ? "strokes" : ""} />, isFigure: true },
            { head: <TwoHeads first="Time" second="top‑ups" />, isFigure: true },
          ]}
          rows={plan.points.map((point, place) => [
            <Screw key="screw" plan={plan} point={point} place={place} />,
            <TwoLines key="through" first={bandAmount(point.volume_ml, "ml")} second={strokesOf(point)} />,
            <TwoLines
              key="time"
              first={`${bandRange(point.minutes)} min`}
              second={topUpsOf(point)}
            />,
          ])}
        />
      </div>
    </section>
  );
}

function Screw(props: { plan: FlushPlan; point: PlanPoint; place: number }): ComponentChild {
  const { plan, point, place } = props;
  const size = point.hex_mm === null ? "spanner: size not known" : `${spanner(point.hex_mm)} spanner`;
  const asides = [point.posture, point.note].filter((aside) => aside !== null);
  return (
    <span class="step-screw">
      <span class="step-number">{place + 1}</span>
      <span class="two-lines">
        <span>{point.at}</span>
        <span class="two-lines-second">{say(size)}</span>
        {asides.map((aside) => (
          <span class="step-aside" key={aside}>
            {say(aside, givenNames(plan))}
          </span>
        ))}
      </span>
    </span>
  );
}

function TwoHeads({ first, second }: { first: string; second: string }): ComponentChild {
  return (
    <span class="two-lines">
      <span>{second ? `${first},` : first}</span>
      <span>{second}</span>
    </span>
  );
}

function TwoLines({ first, second }: { first: string; second: string }): ComponentChild {
  return (
    <span class="two-lines">
      <strong>{first}</strong>
      <span class="two-lines-second">{second}</span>
    </span>
  );
}

function strokesOf(point: PlanPoint): string {
  return point.strokes === null ? "" : counted(count(point.strokes), "stroke");
}

function topUpsOf(point: PlanPoint): string {
  return point.topups.p95 === 0 ? "no top‑up" : counted(count(point.topups), "top‑up");
}
