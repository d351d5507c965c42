// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import { getScene } from "../../api/circuits";
import type { Circuit, MachineDetail } from "../../api/machines";
import { dayShown, say } from "../../display";
import { SceneView } from "../../drawing/SceneView";
import { to } from "../../routes";
import { LinkButton } from "../../ui/LinkButton";
import { Load } from "../../ui/Load";
import { Meter } from "../../ui/Meter";
import { useResource } from "../../ui/resource";

interface Props {
  readonly machine: MachineDetail;
  readonly circuit: Circuit;
}

/** A circuit: drawn by height, what is in it, how well it is known, and where to go. */
export function CircuitSection({ machine, circuit }: Props): ComponentChild {
  const id = useId();
  const scene = useResource(
    (signal) => getScene(machine.id, circuit.name, signal),
    [machine.id, circuit.name, machine.revision],
  );
  const summary = machine.circuits.find((one) => one.name === circuit.name);
  return (
    <section class="machine-circuit" aria-labelledby={id}>
      <div class="machine-circuit-words">
        <h2 id={id}>
          {circuit.name} <span class="soft machine-control">worked by the {circuit.control}</span>
        </h2>
        <dl class="facts">
          <div>
            <dt>Fluid</dt>
            <dd>{filledWords(circuit)}</dd>
          </div>
          <div>
            <dt>Allowed</dt>
            <dd>
              {circuit.fluid.required.length > 0
                ? circuit.fluid.required.join(" or ")
                : "not known; the reservoir cap says it"}
            </dd>
          </div>
          <div>
            <dt>{say("Bleed nipples")}</dt>
            <dd>{screwWords(circuit)}</dd>
          </div>
          {summary ? (
            <div>
              <dt>Known</dt>
              <dd>
                <Meter known={summary.known} of={summary.of} things="sizes" />
              </dd>
            </div>
          ) : null}
        </dl>
        <p class="row">
          <LinkButton kind="do" href={to.plan(machine.id, circuit.name)}>
            Plan the {circuit.name} flush
          </LinkButton>
          <LinkButton href={to.questions(machine.id, circuit.name)}>Measure more of it</LinkButton>
          <LinkButton href={to.level(machine.id, circuit.name)}>Level</LinkButton>
          {circuit.control === "clutch lever" ? null : (
            <LinkButton href={to.lever(machine.id, circuit.name)}>Lever test</LinkButton>
          )}
        </p>
      </div>
      <figure class="machine-drawing">
        <Load of={scene} doing="Drawing the circuit">
          {(found) => <SceneView scene={found} />}
        </Load>
      </figure>
    </section>
  );
}

function filledWords({ fluid }: Circuit): string {
  if (fluid.filled === null) return "nobody knows what is in it";
  if (fluid.filled_on === null) return `${fluid.filled}, nobody knows since when`;
  return `${fluid.filled}, filled on ${dayShown(fluid.filled_on)}`;
}

function screwWords(circuit: Circuit): string {
  const screws = circuit.parts.flatMap((part) => part.screws.map((screw) => screw.id));
  return screws.length > 0 ? screws.join(", ") : "none";
}
