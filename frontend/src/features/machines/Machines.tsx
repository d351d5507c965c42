// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { listMachines, type MachineSummary } from "../../api/machines";
import { to } from "../../routes";
import { LinkButton } from "../../ui/LinkButton";
import { Load } from "../../ui/Load";
import { Screen } from "../../ui/Screen";
import { useResource } from "../../ui/resource";
import { DemoBack } from "./DemoBack";
import { FileImport } from "./FileImport";
import { MachineRow } from "./MachineRow";
import "./machines.css";
import { PutBack } from "./PutBack";
import { Welcome } from "./Welcome";

/** All machines; before there is one of one's own, what the tool is for. */
export function Machines(): ComponentChild {
  const machines = useResource((signal) => listMachines(signal), []);
  const listed = machines.value?.machines ?? [];
  const hasOwn = listed.some((machine) => !machine.is_demo);
  return (
    <Screen title={hasOwn || machines.value === null ? "Machines" : "Know the flush before you open a screw"}>
      <Load of={machines} doing="Looking for the machines">
        {({ machines: found }) => {
          const own = found.filter((machine) => !machine.is_demo);
          const demo = found.filter((machine) => machine.is_demo);
          return (
            <>
              <PutBack onBack={machines.again} />
              {own.length === 0 ? <Welcome demo={demo} /> : <Own machines={own} />}
              <FileImport />
              <Demo machines={demo} isAlone={own.length === 0} onBack={machines.put} />
            </>
          );
        }}
      </Load>
    </Screen>
  );
}

function Own({ machines }: { readonly machines: readonly MachineSummary[] }): ComponentChild {
  return (
    <>
      <ul class="machines">
        {machines.map((machine) => (
          <MachineRow key={machine.id} machine={machine} />
        ))}
      </ul>
      <p class="row">
        <LinkButton href={to.newMachine()}>Describe another machine</LinkButton>
      </p>
    </>
  );
}

function Demo(props: {
  readonly machines: readonly MachineSummary[];
  readonly isAlone: boolean;
  readonly onBack: (list: { readonly machines: readonly MachineSummary[] }) => void;
}): ComponentChild {
  const { machines, isAlone, onBack } = props;
  return (
    <section class="demo" aria-labelledby="demo-title">
      <h2 id="demo-title">The demo workshop</h2>
      <p class="lead">
        {machines.length > 0
          ? "Invented machines to try everything on. Change or remove them as you like; they can be put back."
          : "Its machines were removed. They are invented, for trying everything on."}
      </p>
      {machines.length > 0 ? (
        <ul class={isAlone ? "machines" : "machines machines-demo"}>
          {machines.map((machine) => (
            <MachineRow key={machine.id} machine={machine} />
          ))}
        </ul>
      ) : null}
      <DemoBack machines={machines} onBack={onBack} />
    </section>
  );
}
