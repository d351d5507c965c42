// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { makePlan, type PlanAnswer } from "../../api/circuits";
import type { CircuitSummary, MachineSummary } from "../../api/machines";
import { bandAmount, say } from "../../display";
import { SceneView } from "../../drawing/SceneView";
import { bandMiddle, bandRange, count, counted, inPerCent } from "../../lib/figures";
import { to } from "../../routes";
import { Figure } from "../../ui/Figure";
import { LinkButton } from "../../ui/LinkButton";
import { Load } from "../../ui/Load";
import { useResource } from "../../ui/resource";

/** For whoever has no machine here yet: what the tool does, shown on one that is there. */
export function Welcome({ demo }: { readonly demo: readonly MachineSummary[] }): ComponentChild {
  const shown = mostTelling(demo);
  return (
    <div class="welcome">
      <div class="welcome-words">
        <p class="welcome-sentence">
          {say(
            "firmlever tells you, for your own machine, how much brake or clutch fluid to push through at each bleed nipple, in how many strokes, and where old fluid stays all the same.",
          )}
        </p>
        <p>You need not know much: what you leave out is filled in from what such machines usually have.</p>
        <p class="row">
          <LinkButton kind="do" href={to.newMachine()}>
            Start with your machine
          </LinkButton>
          {shown ? (
            <LinkButton href={to.plan(shown.machine.id, shown.circuit.name)}>Look at this plan first</LinkButton>
          ) : null}
        </p>
      </div>
      {shown ? <Example machine={shown.machine} circuit={shown.circuit} /> : null}
    </div>
  );
}

interface Shown {
  readonly machine: MachineSummary;
  readonly circuit: CircuitSummary;
}

/** The circuit of which most is known: its drawing has most to show. */
function mostTelling(machines: readonly MachineSummary[]): Shown | undefined {
  const all = machines.flatMap((machine) => machine.circuits.map((circuit) => ({ machine, circuit })));
  return all.sort((one, other) => other.circuit.known - one.circuit.known)[0];
}

function Example({ machine, circuit }: Shown): ComponentChild {
  const answer = useResource(
    (signal) => makePlan(machine.id, circuit.name, {}, signal),
    [machine.id, circuit.name, machine.revision],
  );
  return (
    <figure class="welcome-example">
      <Load of={answer} doing="Working out the plan of a demo machine">
        {(found) => <ExampleDrawing found={found} />}
      </Load>
    </figure>
  );
}

function ExampleDrawing({ found: { plan, scene } }: { readonly found: PlanAnswer }): ComponentChild {
  const stays = inPerCent(plan.left_old.whole);
  return (
    <>
      <figcaption>
        <Figure value={`${bandMiddle(stays)} %`} band={bandRange(stays)}>
          stays old in the {plan.circuit} circuit of this demo machine after a careful flush. The hatching shows where.
        </Figure>
      </figcaption>
      <SceneView scene={scene} plan={plan} />
      <ul class="welcome-points">
        {plan.points.map((point) => (
          <li key={point.at}>
            <span>{point.at}</span>
            <strong>{bandAmount(point.volume_ml, "ml")}</strong>
            <span>{point.strokes ? counted(count(point.strokes), "stroke") : ""}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
