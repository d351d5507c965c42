// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { bandAmount, say } from "../../display";
import { bandRange, counted } from "../../lib/figures";
import { bottle, guardAmount, smallAmount } from "./amounts";
import { givenNames, orderWords, spanner } from "./sentence";

/** What to have ready and what to keep an eye on. */
export function Bench({ plan }: { readonly plan: FlushPlan }): ComponentChild {
  return (
    <section class="plan-part">
      <h2>At the bench</h2>
      <dl class="facts">
        {benchFacts(plan).map(({ name, words }) => (
          <div key={name}>
            <dt>{say(name)}</dt>
            <dd>{say(words, givenNames(plan))}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

interface Fact {
  readonly name: string;
  readonly words: string;
}

export function benchFacts(plan: FlushPlan): readonly Fact[] {
  const pots = `${bandRange(plan.pots_min_max)} times what lies between MIN and MAX`;
  return [
    { name: "Reservoir", words: guardWords(plan) },
    { name: "At the end", words: `fill it to ${bandAmount(plan.reservoir.fill_to_ml, "ml")}` },
    { name: "Work", words: `${bandRange(plan.minutes)} minutes in all` },
    { name: "Goes through", words: `${bandAmount(plan.through_ml, "ml")}, ${pots}` },
    { name: "Buy", words: `${bottle(plan.buy_ml)} of ${plan.fluid}` },
    { name: "Spanner", words: spannerWords(plan) },
    { name: "Order", words: orderWords(plan, smallAmount(plan.order.difference_ml)) },
  ];
}

function guardWords(plan: FlushPlan): string {
  const { strokes_to_min: strokes, ml_to_min: ml, on_side_stand_ml: leaning } = plan.reservoir;
  const level = guardAmount(ml);
  const after = strokes === null ? level : `${counted(String(strokes.p05), "stroke")} (${level})`;
  return `top up after ${after}; on the side stand already after ${guardAmount(leaning)}`;
}

function spannerWords(plan: FlushPlan): string {
  return plan.tools.map((tool) => `${spanner(tool.hex_mm)} (${tool.screws.join(", ")})`).join("; ");
}
