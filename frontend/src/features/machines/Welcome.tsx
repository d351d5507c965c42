// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { makePlan } from "../../api/circuits";
import type { CircuitSummary, MachineSummary } from "../../api/machines";
import type { FlushPlan } from "../../api/plan";
import { bandAmount, say } from "../../display";
import { SceneView } from "../../drawing/SceneView";
import { bandMiddle, bandRange, count, counted, inPerCent } from "../../lib/figures";
import { to } from "../../routes";
import { Figure } from "../../ui/Figure";
import { LinkButton } from "../../ui/LinkButton";
import { Load } from "../../ui/Load";
import { useResource } from "../../ui/resource";
import { HowItGoes } from "./HowItGoes";

/** For whoever has no machine here yet: what the tool does, shown on one that is there. */
export function Welcome({ demo }: { readonly demo: readonly MachineSummary[] }): ComponentChild {
  const shown = mostTelling(demo);
  return (
    <div class="welcome">
      <div class="welcome-words">
        <p class="welcome-sentence">
          {say(
            "How much fluid to push through each bleed nipple of your brakes and clutch, in how many strokes, and where old fluid stays all the same.",
          )}
        </p>
        <p class="row">
          <LinkButton kind="do" href={to.newMachine()}>
            Start with your machine
          </LinkButton>
          <span>Leave out what you do not know.</span>
        </p>
      </div>
      {shown ? <Example machine={shown.machine} circuit={shown.circuit} /> : <HowItGoes />}
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
  if (answer.value === null) {
    return (
      <div class="welcome-drawing">
        <Load of={answer} doing="Working out the plan of a demo machine">
          {() => null}
        </Load>
      </div>
    );
  }
  const { plan, scene } = answer.value;
  const stays = inPerCent(plan.left_old.whole);
  return (
    <>
      <div class="welcome-figure">
        <Figure value={`${bandMiddle(stays)} %`} band={bandRange(stays)}>
          stays old in the {placeOf(circuit)} of this demo machine after its flush. The hatching shows where.
        </Figure>
      </div>
      <div class="welcome-drawing">
        <SceneView scene={scene} shares={middleShares(plan)} order={plan.points.map((point) => point.at)} />
      </div>
      <div class="welcome-points">
        <ol>
          {plan.points.map((point, position) => (
            <li key={point.at}>
              <span>
                <strong>{position + 1}</strong> {point.at}
              </span>
              <strong>{bandAmount(point.volume_ml, "ml")}</strong>
              <span>{point.strokes ? counted(count(point.strokes), "stroke") : ""}</span>
            </li>
          ))}
        </ol>
        <LinkButton href={to.plan(machine.id, circuit.name)}>Look through this plan</LinkButton>
      </div>
    </>
  );
}

function placeOf(circuit: CircuitSummary): string {
  return circuit.control === "clutch lever" ? "clutch" : `${circuit.name} brake`;
}

function middleShares(plan: FlushPlan): Readonly<Record<string, number>> {
  return Object.fromEntries(Object.entries(plan.left_old.parts).map(([owner, old]) => [owner, old.p50]));
}
