// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { MachineSummary } from "../../api/machines";
import { say } from "../../display";
import { to } from "../../routes";
import { LinkButton } from "../../ui/LinkButton";
import { Meter } from "../../ui/Meter";

interface Props {
  readonly machine: MachineSummary;
  readonly heading: "h2" | "h3";
}

/** A machine with a line for each of its circuits. */
export function MachineRow({ machine, heading: Heading }: Props): ComponentChild {
  return (
    <li class="machine">
      <Heading class="machine-name">
        <a href={to.machine(machine.id)}>{machine.name}</a> <span class="soft">{machine.bike_class}</span>
      </Heading>
      {machine.circuits.length === 0 ? (
        <p>Its file can no longer be read. Open it to see why.</p>
      ) : (
        <ul class="circuits">
          {machine.circuits.map((circuit) => (
            <li class="circuit" key={circuit.name}>
              <span class="circuit-name">{circuit.name}</span>
              <span class="circuit-fluid">{circuit.fluid ?? "fluid not known"}</span>
              <span class="circuit-screws">
                {say(circuit.screws === 1 ? "1 bleed nipple" : `${circuit.screws} bleed nipples`)}
              </span>
              <Meter known={circuit.known} of={circuit.of} things="sizes" />
              <LinkButton href={to.plan(machine.id, circuit.name)}>
                Plan<span class="only-heard"> the flush of {machine.name}, {circuit.name}</span>
              </LinkButton>
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}
