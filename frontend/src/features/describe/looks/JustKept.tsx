// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { MachineDetail } from "../../../api/machines";
import { to } from "../../../routes";
import { LinkButton } from "../../../ui/LinkButton";
import { Screen } from "../../../ui/Screen";

/** Where to go from a machine that was just described. */
export function JustKept({ machine }: { machine: MachineDetail }): ComponentChild {
  const [first, ...others] = machine.circuits;
  return (
    <Screen
      title={`${machine.name} is kept`}
      lead="The plan works at once, with what such machines usually have. What you measure makes it narrower."
    >
      {first ? (
        <div class="row">
          <LinkButton kind="do" href={to.plan(machine.id, first.name)}>
            Plan the {first.name} flush
          </LinkButton>
          <LinkButton href={to.questions(machine.id, first.name)}>Measure something first</LinkButton>
        </div>
      ) : null}
      <div class="row">
        {others.map((circuit) => (
          <LinkButton key={circuit.name} href={to.plan(machine.id, circuit.name)}>
            Plan the {circuit.name} flush
          </LinkButton>
        ))}
        <LinkButton href={to.machine(machine.id)}>See the machine</LinkButton>
      </div>
    </Screen>
  );
}
