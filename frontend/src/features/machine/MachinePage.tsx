// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { fileAddress, getMachine, type MachineDetail } from "../../api/machines";
import { dayShown } from "../../display";
import { isGone } from "../../lib/request";
import { to } from "../../routes";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { LinkButton } from "../../ui/LinkButton";
import { Screen } from "../../ui/Screen";
import { Wait } from "../../ui/Wait";
import { useResource } from "../../ui/resource";
import { CircuitSection } from "./CircuitSection";
import { Gone } from "./Gone";
import { KeptPlans } from "./KeptPlans";
import "./machine.css";
import { MachineFile } from "./MachineFile";
import { RemoveMachine } from "./RemoveMachine";

const BACK = { href: to.machines(), name: "Machines" };

/** One machine: its circuits by height, what is known of them, and its file. */
export function MachinePage({ id }: { readonly id: string }): ComponentChild {
  const machine = useResource((signal) => getMachine(id, signal), [id]);
  const { failure, value } = machine;
  if (failure && isGone(failure)) return <Gone id={id} />;
  if (value === null) {
    return (
      <Screen title="Machine" back={BACK}>
        {failure ? (
          <>
            <ErrorNotice failure={failure} onAgain={machine.again} />
            {failure.kind === "refused" ? (
              <p>
                <LinkButton href={fileAddress(id)} download>
                  Take the file out as it is
                </LinkButton>
              </p>
            ) : null}
          </>
        ) : (
          <Wait doing="Looking for the machine" />
        )}
      </Screen>
    );
  }
  return (
    <Screen title={value.name} lead={leadOf(value)} back={BACK}>
      {failure ? <ErrorNotice failure={failure} onAgain={machine.again} /> : null}
      {value.bike.circuits.map((circuit) => (
        <CircuitSection key={circuit.name} machine={value} circuit={circuit} />
      ))}
      <KeptPlans machine={value} />
      <section class="upkeep" aria-labelledby="upkeep-title">
        <h2 id="upkeep-title">The machine's file</h2>
        <p class="lead">
          All that is known stands in one text file. Take it out to keep it or to give it to somebody.
        </p>
        <p class="row">
          <LinkButton href={fileAddress(id)} download>
            Take the file out
          </LinkButton>
        </p>
        <MachineFile key={id} machine={value} onSaved={machine.put} />
        <RemoveMachine machine={value} onMeanwhile={machine.again} />
      </section>
    </Screen>
  );
}

function leadOf(machine: MachineDetail): string {
  const changed = `last changed on ${dayShown(machine.changed_at)}`;
  const kind = machine.bike_class.charAt(0).toUpperCase() + machine.bike_class.slice(1);
  return `${kind}, ${changed}.${machine.is_demo ? " Invented, for the demo workshop." : ""}`;
}
