// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { getMachine, type MachineDetail } from "../../api/machines";
import { say } from "../../display";
import { capital } from "../../lib/words";
import { to } from "../../routes";
import { Screen } from "../../ui/Screen";
import { useResource, type Resource } from "../../ui/resource";
import { Wait } from "../../ui/Wait";
import { Bench } from "./Bench";
import { Beyond } from "./Beyond";
import { Cautions } from "./Cautions";
import { ComesOut } from "./ComesOut";
import { Drawing } from "./Drawing";
import { Filling } from "./Filling";
import { Findings } from "./Findings";
import { changeGist } from "./gist";
import { Goal } from "./Goal";
import { Grounds } from "./Grounds";
import { Headline } from "./Headline";
import { Keeping } from "./Keeping";
import { Methods } from "./Methods";
import { Narrowing } from "./Narrowing";
import { NowBar } from "./NowBar";
import { Part } from "./Part";
import { PistonsHome } from "./PistonsHome";
import { wayWords, workWords } from "./sentence";
import { Steps } from "./Steps";
import { Technique } from "./Technique";
import { Trouble } from "./Trouble";
import { usePlan, type Planning } from "./usePlan";
import { useSoon } from "./useSoon";
import { useWish, type Wishing } from "./useWish";
import { WhatFor } from "./WhatFor";
import "./plan.css";

interface Props {
  readonly id: string;
  readonly circuit: string;
}

/** The plan of one flush or fill: what stays old and where, or what a dry circuit takes, what to do, and what would change it. */
export function Plan({ id, circuit }: Props): ComponentChild {
  const wishing = useWish();
  const [revision, setRevision] = useState(0);
  const machine = useResource((signal) => getMachine(id, signal), [id]);
  const planning = usePlan(id, circuit, wishing.wish, revision);
  const { value: answer, failure, isAsking } = planning;
  const name = machine.value?.name ?? answer?.plan.bike ?? "The machine";
  const doing = `Working out the ${wishing.wish.work ?? "flush"} of the ${circuit} circuit`;
  const work = answer?.plan.work ?? wishing.wish.work ?? "flush";
  return (
    <Screen
      title={capital(workWords(work, circuit))}
      lead={answer ? `${answer.plan.bike} · ${say(wayWords(answer.plan))}` : name}
      back={{ href: to.machine(id), name }}
    >
      {failure ? (
        <Trouble
          failure={failure}
          id={id}
          onAgain={planning.again}
          onBack={answer && (() => wishing.put(answer.wish))}
          onChange={wishing.change}
        />
      ) : null}
      {answer ? (
        <Parts
          id={id}
          planning={planning}
          answer={answer}
          wishing={wishing}
          machine={machine}
          onKept={(changed) => {
            machine.put(changed);
            setRevision(changed.revision);
          }}
          doing={isAsking ? doing : null}
        />
      ) : isAsking && !failure ? (
        <Wait doing={doing} />
      ) : null}
    </Screen>
  );
}

interface PartsProps {
  readonly id: string;
  readonly planning: Planning;
  readonly answer: NonNullable<Planning["value"]>;
  readonly wishing: Wishing;
  readonly machine: Resource<MachineDetail>;
  readonly onKept: (machine: MachineDetail) => void;
  readonly doing: string | null;
}

function Parts(props: PartsProps): ComponentChild {
  const { id, planning, answer, wishing, machine, onKept, doing } = props;
  const { plan, scene } = answer;
  const { wish, change } = wishing;
  const isSoon = useSoon();
  return (
    <>
      <Findings plan={plan} />
      <div class="plan">
        <div class="plan-sight">
          <Headline now={answer} before={planning.before} doing={doing} />
          <Drawing plan={plan} scene={scene} />
        </div>
        <div class="plan-column">
          <Beyond plan={plan} />
          {plan.fill ? <Filling plan={plan} fill={plan.fill} /> : <Steps plan={plan} />}
          <Bench plan={plan} />
          <Part title="What you can change" gist={changeGist(plan)}>
            <WhatFor work={wish.work ?? "flush"} onChange={change} />
            <PistonsHome plan={plan} isOn={wish.pistons_home ?? false} onChange={change} />
            <Methods plan={plan} chosen={wish.method ?? plan.method} onChange={change} />
            <Technique id={id} plan={plan} wish={wish} revision={machine.value?.revision ?? 0} onChange={change} />
            <Goal plan={plan} wish={wish} onChange={change} />
          </Part>
          {isSoon ? (
            <>
              {plan.fill ? null : <ComesOut plan={plan} />}
              <Narrowing
                plan={plan}
                scene={scene}
                machine={machine.value}
                isWorking={doing !== null}
                onKept={onKept}
              />
              <Grounds plan={plan} scene={scene} />
            </>
          ) : null}
          <Cautions plan={plan} />
          <Keeping
            id={id}
            circuit={plan.circuit}
            wish={wish}
            isStale={doing !== null || planning.failure !== null}
          />
        </div>
      </div>
      <NowBar plan={plan} doing={doing} />
    </>
  );
}
