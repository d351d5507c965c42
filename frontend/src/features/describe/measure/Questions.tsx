// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import { getQuestions, getScene, makePlan, type Question } from "../../../api/circuits";
import { getMachine, type MachineDetail } from "../../../api/machines";
import type { AnswerValue } from "../../../api/shapes";
import { SceneView } from "../../../drawing/SceneView";
import { isGone } from "../../../lib/request";
import { listOf, text } from "../../../lib/validate";
import { to } from "../../../routes";
import { Button } from "../../../ui/Button";
import { LinkButton } from "../../../ui/LinkButton";
import { Load } from "../../../ui/Load";
import { useResource } from "../../../ui/resource";
import { Screen } from "../../../ui/Screen";
import { addressWith, goTo, useAsked } from "../address";
import { useKept } from "../session";
import { Headline } from "./Headline";
import { drawnOwnerOf } from "../../../answering/naming";
import { NothingLeft } from "./NothingLeft";
import { leftInWords, nextAfter, worthAsking } from "./order";
import { useOutbox } from "./outbox";
import { QuestionList } from "./QuestionList";
import { QuestionPage } from "./QuestionPage";
import { StandingNotice } from "./StandingNotice";

import "../describe.css";

const ASK = "ask";
const END = "end";

/** The questions about one circuit, best first, one a page. */
export function Questions({ id, circuit }: { id: string; circuit: string }): ComponentChild {
  const machine = useResource((signal) => getMachine(id, signal), [id]);
  const found = machine.value;
  if (machine.failure && isGone(machine.failure)) {
    return (
      <Screen title="This machine is not here any more" lead="It was removed, or the address is cut short.">
        <LinkButton href={to.machines()}>To the machines</LinkButton>
      </Screen>
    );
  }
  if (found && !found.circuits.some((one) => one.name === circuit)) {
    return (
      <Screen title={`${found.name} has no circuit called ${circuit}`}>
        <LinkButton href={to.machine(id)}>See the machine</LinkButton>
      </Screen>
    );
  }
  if (!found) {
    return (
      <Screen title={`Questions about the ${circuit}`}>
        <Load of={machine} doing="Looking for the machine">
          {() => null}
        </Load>
      </Screen>
    );
  }
  return <Talk machine={found} circuit={circuit} onMachine={machine.put} onReread={machine.again} />;
}

interface TalkProps {
  readonly machine: MachineDetail;
  readonly circuit: string;
  readonly onMachine: (machine: MachineDetail) => void;
  readonly onReread: () => void;
}

const keyList = listOf(text);

function Talk({ machine, circuit, onMachine, onReread }: TalkProps): ComponentChild {
  const { id, revision } = machine;
  const questions = useResource((signal) => getQuestions(id, circuit, signal), [id, circuit, revision]);
  const drawn = useResource((signal) => getScene(id, circuit, signal), [id, circuit, revision]);
  const planned = useResource((signal) => makePlan(id, circuit, {}, signal), [id, circuit, revision]);
  const [putOff, setPutOff] = useKept<readonly string[]>(`not known of ${id} ${circuit}`, keyList, []);
  // Known to be answered before the questions have been worked out anew.
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const outbox = useOutbox(machine, onMachine);
  const address = useAsked(ASK);

  const all = questions.value?.questions ?? [];
  const done = [...putOff, ...answered, ...outbox.waiting.map((change) => change.key)];
  const current = address === END ? null : (findAsked(address, circuit, all) ?? nextAfter(null, all, done));
  const isConflict = outbox.standing.kind === "conflict";
  useEffect(() => {
    // What the other side wrote is shown next to what is kept here.
    if (isConflict) questions.again();
  }, [isConflict]);
  useEffect(() => {
    // The page keeps its question when fresher questions come in another order.
    if (current && address === null) location.replace(addressWith(ASK, current.key));
  }, [current?.key, address]);

  const goOn = (after: Question, skipped: readonly string[]): void => {
    setAnswered((before) => [...before, ...skipped]);
    goTo(ASK, nextAfter(after.key, all, [...done, ...skipped])?.key ?? END);
  };
  const keep = async (question: Question, value: AnswerValue | null, alsoAlike: boolean): Promise<void> => {
    const keys = [question.key, ...(alsoAlike ? question.also : [])];
    const standing = await outbox.send(keys.map((key) => ({ key, value })));
    if (standing.kind === "clear" || standing.kind === "unsent") goOn(question, keys);
  };
  const putMine = async (): Promise<void> => {
    const keys = outbox.waiting.map((change) => change.key);
    const standing = await outbox.sendOnTop();
    if (current && standing.kind === "clear") goOn(current, keys);
  };
  const leaveOpen = (question: Question): void => {
    setPutOff([...new Set([...putOff, question.key])]);
    if (question.given === null) goOn(question, [question.key]);
    else void keep(question, null, true);
  };

  const notice = (
    <StandingNotice
      outbox={outbox}
      questions={all}
      onPutMine={() => void putMine()}
      onLeaveTheirs={() => {
        outbox.drop();
        onReread();
        if (current) goOn(current, [current.key]);
      }}
    />
  );
  const left = worthAsking(all, [...done, current?.key ?? ""]).length;
  return (
    <div class="talk talk-measure">
      <div class="talk-page" key={current?.key ?? (questions.value ? END : "wait")}>
        {current ? (
          <QuestionPage
            machine={machine}
            circuit={circuit}
            question={current}
            isSending={outbox.isSending}
            notice={notice}
            onKeep={(value, alsoAlike) => void keep(current, value, alsoAlike)}
            onUnknown={() => leaveOpen(current)}
          />
        ) : questions.value ? (
          <>
            {notice}
            <NothingLeft
              machine={machine}
              circuit={circuit}
              questions={all}
              unknown={putOff.length}
              onAskAgain={() => {
                setPutOff([]);
                setAnswered([]);
                goTo(ASK, nextAfter(null, all, [])?.key ?? null);
              }}
            />
          </>
        ) : (
          <Screen title={`Questions about the ${circuit}`} back={{ href: to.machine(id), name: machine.name }}>
            <Load of={questions} doing="Working out what is worth asking">
              {() => null}
            </Load>
          </Screen>
        )}
        <div class="talk-foot">
          {current ? <p class="soft">{leftInWords(left)}</p> : null}
          <div class="row">
            {current ? <Button onClick={() => history.back()}>Back</Button> : null}
            {current ? <LinkButton href={to.plan(id, circuit)}>Enough: to the plan</LinkButton> : null}
          </div>
          {questions.value ? <QuestionList questions={all} /> : null}
        </div>
      </div>
      <aside class="talk-drawing" aria-label="What is known so far">
        {planned.value ? (
          <Headline leftOld={planned.value.plan.left_old.whole} revision={revision} />
        ) : null}
        {drawn.value ? (
          <figure class="draft">
            <SceneView scene={drawn.value} highlight={current ? [drawnOwnerOf(current.key)] : []} />
            <figcaption class="draft-caption soft">
              {machine.name}, {circuit}, by height.
            </figcaption>
          </figure>
        ) : null}
      </aside>
    </div>
  );
}

/** The question an address names, by its key with or without the circuit, or by what is alike. */
function findAsked(address: string | null, circuit: string, all: readonly Question[]): Question | undefined {
  if (address === null) return undefined;
  const fits = (key: string): boolean => key === address || key === `${circuit}/${address}`;
  return all.find((one) => fits(one.key)) ?? all.find((one) => one.also.some(fits));
}
