// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Assumed, FlushPlan } from "../../api/plan";
import { say, shown, unit } from "../../display";
import { plain } from "../../lib/figures";
import { capital } from "../../lib/words";
import { assumedTitle, SourcesFold } from "../../ui/Grounds";
import { Table } from "../../ui/Table";
import { Unfold } from "../../ui/Unfold";
import { groundsGist } from "./gist";
import { Part } from "./Part";
import { givenNames, ownerOf, ownerWords, type Named } from "./sentence";

/** How the work goes, and what the figures stand on, for whoever wants it. */
export function Grounds({ plan, scene }: { readonly plan: FlushPlan; readonly scene: Named }): ComponentChild {
  const keep = givenNames(plan);
  return (
    <Part title="How and why" gist={groundsGist(plan)}>
      <div>
        <Unfold summary={say(`Each time: ${plan.technique}`)}>
          <ol class="steps">
            {plan.technique_steps.map((step) => (
              <li key={step}>{say(step)}</li>
            ))}
          </ol>
        </Unfold>
        <Unfold summary={assumedTitle(plan.assumed.length)}>
          <p class="soft">Not given, so taken from what is usual for this class of machine (5 to 95 %).</p>
          <div class="stacked-table">
            <Table
              caption="Assumed quantities"
              hideCaption
              columns={[{ head: "What" }, { head: "Usually", isFigure: true }, { head: "Rests on" }]}
              rows={plan.assumed.map((one) => [
                say(capital(whatWords(one, scene)), keep),
                rangeWords(one),
                basisWords(one),
              ])}
            />
          </div>
        </Unfold>
        <SourcesFold sources={plan.sources} />
      </div>
    </Part>
  );
}

function whatWords(one: Assumed, scene: Named): string {
  const owners = [one.name, ...one.also].map((name) => ownerWords(ownerOf(name), scene)).join(" and ");
  return owners ? `${owners}: ${one.words}` : one.words;
}

function rangeWords(one: Assumed): string {
  const ends = [one.low, one.high].map((end) => plain(shown(end, one.unit)));
  return `${ends.join("–")} ${unit(one.unit).replace("m2", "m²")}`.trimEnd();
}

function basisWords(one: Assumed): string {
  const isNamed = one.source.replaceAll("-", " ") !== one.basis;
  return isNamed ? `${one.basis}, ${one.source}` : one.basis;
}
