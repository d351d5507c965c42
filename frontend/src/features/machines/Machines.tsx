// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

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
import { MendFile, type FaultyFile } from "./MendFile";
import { PutBack } from "./PutBack";
import { Welcome } from "./Welcome";

type Listed = readonly MachineSummary[];

/** All machines; before there is one of one's own, what the tool is for. */
export function Machines(): ComponentChild {
  const machines = useResource((signal) => listMachines(signal), []);
  const [faulty, setFaulty] = useState<FaultyFile | null>(null);
  if (faulty !== null) return <MendFile file={faulty} onLeave={() => setFaulty(null)} />;

  const own = machines.value?.machines.filter((machine) => !machine.is_demo) ?? [];
  const demo = machines.value?.machines.filter((machine) => machine.is_demo) ?? [];
  const isNew = machines.value !== null && own.length === 0;
  return (
    <Screen title={isNew ? "Know the flush before you open a screw" : "Machines"}>
      <Load of={machines} doing="Looking for the machines">
        {() => (
          <>
            <PutBack onBack={machines.again} />
            {isNew ? <Welcome demo={demo} /> : <Own machines={own} />}
            <FileImport onFaulty={setFaulty} />
            <Demo machines={demo} onBack={(all) => machines.put({ machines: all })} />
          </>
        )}
      </Load>
    </Screen>
  );
}

function Own({ machines }: { readonly machines: Listed }): ComponentChild {
  return (
    <>
      <ul class="machines">
        {machines.map((machine) => (
          <MachineRow key={machine.id} machine={machine} heading="h2" />
        ))}
      </ul>
      <p class="row">
        <LinkButton kind="do" href={to.newMachine()}>
          Describe another machine
        </LinkButton>
      </p>
    </>
  );
}

interface DemoProps {
  readonly machines: Listed;
  readonly onBack: (machines: Listed) => void;
}

function Demo({ machines, onBack }: DemoProps): ComponentChild {
  return (
    <section class="demo" aria-labelledby="demo-title">
      <h2 id="demo-title">The demo workshop</h2>
      <p class="lead">
        {machines.length > 0
          ? "Invented machines to try everything on. Change or remove them as you like; they can be put back."
          : "Its machines were removed. They are invented, for trying everything on."}
      </p>
      {machines.length > 0 ? (
        <ul class="machines">
          {machines.map((machine) => (
            <MachineRow key={machine.id} machine={machine} heading="h3" />
          ))}
        </ul>
      ) : null}
      <DemoBack machines={machines} onBack={onBack} />
    </section>
  );
}
