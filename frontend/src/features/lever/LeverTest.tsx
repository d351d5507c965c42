// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

import { getMachine } from "../../api/machines";
import { momentShown } from "../../display";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Load } from "../../ui/Load";
import { Notice } from "../../ui/Notice";
import { Screen } from "../../ui/Screen";
import { useResource } from "../../ui/resource";
import { jobIn } from "./forJob";
import { JustKept, KeepIt, nameHere } from "./KeepIt";
import { Kept } from "./Kept";
import { Need } from "./Need";
import { Read } from "./Read";
import { Result } from "./Result";
import { told, workedBy } from "./told";
import { useTest, type Test } from "./useTest";
import "./lever.css";

interface Props {
  readonly id: string;
  readonly circuit: string;
}

/** The lever test of one circuit: what it needs, the readings, what they say, what was kept. */
export function LeverTest({ id, circuit }: Props): ComponentChild {
  const [job] = useState(() => jobIn(location.hash));
  const machine = useResource((signal) => getMachine(id, signal), [id]);
  const name = machine.value?.name;
  const control = machine.value?.bike.circuits.find((one) => one.name === circuit)?.control ?? "lever";
  useLayoutEffect(() => {
    workedBy.value = control;
  }, [control]);
  return (
    <Screen
      title={name === undefined ? "Lever test" : `Lever test: ${name}, ${circuit}`}
      lead={told("A hanging scale and a ruler say how much air is left, and what else the lever gives way to.")}
      back={job === null ? { href: to.machine(id), name: name ?? "The machine" } : { href: to.job(job), name: "To the bench" }}
    >
      <Load of={machine} doing="Looking for the machine">
        {() => <Stage id={id} circuit={circuit} job={job} />}
      </Load>
    </Screen>
  );
}

interface StageProps extends Props {
  readonly job: string | null;
}

function Stage({ id, circuit, job }: StageProps): ComponentChild {
  const test = useTest(id, circuit);
  const { list } = test;
  const kept = (
    <Load of={list} doing="Looking for kept tests">
      {(found) => (
        <Kept
          key={found.baseline}
          machine={id}
          circuit={circuit}
          list={found}
          who={nameHere()}
          onShow={test.showOld}
          onChanged={list.again}
        />
      )}
    </Load>
  );
  if (test.old !== null) return <Old test={test} />;
  if (test.said !== null) return <Said {...{ id, circuit, job, test, kept }} />;
  if (test.isReading) return <Reading test={test} />;
  return (
    <>
      {test.putAway === null ? null : (
        <p>
          <Button onClick={test.takeBack}>Take the readings back</Button>
        </p>
      )}
      <Need onStart={test.start} />
      {test.failure ? <ErrorNotice failure={test.failure} /> : null}
      {kept}
    </>
  );
}

/** A test as it was kept. */
function Old({ test }: { test: Test }): ComponentChild {
  if (test.old === null) return null;
  return (
    <>
      <Notice kind="note" title={`Kept on ${momentShown(test.old.made_at)} by ${test.old.who}`} />
      <Result result={test.old.document} />
      <p>
        <Button onClick={test.leaveOld}>Back to the test</Button>
      </p>
    </>
  );
}

/** What the readings say; then it is kept, or read on. */
function Said({ id, circuit, job, test, kept }: StageProps & { test: Test; kept: ComponentChild }): ComponentChild {
  const { said, keptId } = test;
  if (said === null) return null;
  if (keptId !== null) {
    return (
      <>
        <JustKept
          machine={id}
          circuit={circuit}
          job={job}
          id={keptId}
          isGood={test.list.value?.baseline === keptId}
          onGood={test.list.again}
        />
        <Result result={said.result} />
        {kept}
        <p>
          <Button onClick={test.afresh}>Another test</Button>
        </p>
      </>
    );
  }
  return (
    <>
      <Result result={said.result} onRead={test.readKind} />
      <KeepIt
        machine={id}
        circuit={circuit}
        job={job}
        result={said.result}
        read={said.read}
        id={test.draft.id}
        onId={test.nameIt}
        onKept={test.kept}
      />
      <p>
        <Button onClick={test.back}>Back to the readings</Button>
      </p>
    </>
  );
}

function Reading({ test }: { test: Test }): ComponentChild {
  const { faults, whole, list } = test;
  return (
    <>
      <Read
        draft={test.draft}
        set={test.set}
        faults={faults}
        kept={list.value?.tests ?? []}
        baseline={list.value?.baseline ?? null}
        onSet={test.choose}
        onDraft={test.change}
      />
      {test.failure ? <ErrorNotice failure={test.failure} kept="The readings are still on this device." /> : null}
      {faults.length + whole.length > 0 ? (
        <Notice kind="stop" title={faults.length > 0 ? "Some rows are to be put right first" : "Not ready yet"}>
          <p>{whole.length > 0 ? whole.map((text) => told(text)).join(" ") : "Each says what is wrong, at its row."}</p>
        </Notice>
      ) : null}
      <div class="lever-floor">
        <Button kind="do" busy={test.isBusy} onClick={test.workOut}>
          {test.isBusy ? "Working it out …" : "Work it out"}
        </Button>
        <Button onClick={test.afresh}>Start afresh</Button>
      </div>
    </>
  );
}
