// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { MachineDetail } from "../../../api/machines";
import { to } from "../../../routes";
import { Button } from "../../../ui/Button";
import { LinkButton } from "../../../ui/LinkButton";
import { Screen } from "../../../ui/Screen";

interface Props {
  readonly machine: MachineDetail;
  readonly circuit: string;
  /** How many questions were left with "don't know". */
  readonly unknown: number;
  readonly onAskAgain: () => void;
}

/** The end of the questions. */
export function NothingLeft({ machine, circuit, unknown, onAskAgain }: Props): ComponentChild {
  const others = machine.circuits.filter((one) => one.name !== circuit);
  return (
    <Screen
      title="That is all that is worth asking"
      lead="What is left to measure would change this plan by next to nothing."
      back={{ href: to.machine(machine.id), name: machine.name }}
    >
      <div class="row">
        <LinkButton kind="do" href={to.plan(machine.id, circuit)}>
          Plan the {circuit} flush
        </LinkButton>
        {unknown > 0 ? (
          <Button onClick={onAskAgain}>
            {unknown === 1 ? "Ask again what I did not know" : `Ask the ${unknown} again that I did not know`}
          </Button>
        ) : null}
      </div>
      {others.length > 0 ? (
        <div class="row">
          {others.map((one) => (
            <LinkButton key={one.name} href={to.questions(machine.id, one.name)}>
              Questions about the {one.name}
            </LinkButton>
          ))}
        </div>
      ) : null}
    </Screen>
  );
}
