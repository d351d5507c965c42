// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

import { AnswerForm } from "../../answering/AnswerForm";
import { isOpposed, limitsInWords, pictureOf, rangeInWords } from "../../answering/naming";
import { getQuestions, type Question } from "../../api/circuits";
import type { Change, MachineDetail } from "../../api/machines";
import type { Narrow } from "../../api/plan";
import type { AnswerValue } from "../../api/shapes";
import { Picture } from "../../pictures";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Load } from "../../ui/Load";
import { Notice } from "../../ui/Notice";
import { useResource } from "../../ui/resource";
import { useAnswering } from "./useAnswering";

interface Props {
  readonly entry: Narrow;
  readonly circuit: string;
  readonly machine: MachineDetail;
  readonly onKept: (machine: MachineDetail) => void;
  readonly onClose: () => void;
}

/** The answer to one measurement, in the place where it is offered. */
export function Answer(props: Props): ComponentChild {
  const { entry, circuit, machine } = props;
  const asked = useResource((signal) => getQuestions(machine.id, circuit, signal), [machine.id, circuit]);
  return (
    <Load of={asked} doing="Looking up what it can be">
      {({ questions }) => {
        const question = questions.find((one) => one.key === `${circuit}/${entry.name}`);
        return question ? <Form question={question} {...props} /> : <NoPlace onClose={props.onClose} />;
      }}
    </Load>
  );
}

function NoPlace({ onClose }: { onClose: () => void }): ComponentChild {
  return (
    <Notice kind="note">
      <p>This machine's file has no place for it.</p>
      <Button onClick={onClose}>Close</Button>
    </Notice>
  );
}

function Form({ question, circuit, machine, onKept, onClose }: Props & { question: Question }): ComponentChild {
  const [unsent, setUnsent] = useState<readonly Change[]>([]);
  const { standing, keep, keepOnTop } = useAnswering(machine, onKept);
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => place.current?.querySelector<HTMLInputElement>(".box")?.focus(), []);
  const send = (value: AnswerValue | null, alsoAlike: boolean): void => {
    const keys = [question.key, ...(alsoAlike ? question.also : [])];
    const changes = keys.map((key) => ({ key, value }));
    setUnsent(changes);
    void keep(changes);
  };
  return (
    <div class="narrow-answer" ref={place}>
      <div class="narrow-picture">
        <Picture name={pictureOf(question)} />
      </div>
      <p class="soft">{boundsWords(question)}</p>
      <AnswerForm
        question={question}
        isOpposed={isOpposed(machine, circuit, question)}
        isSending={standing.kind === "sending"}
        keepWords="Keep and plan again"
        onKeep={send}
        onUnknown={() => (question.given === null ? onClose() : send(null, true))}
      >
        {standing.kind === "conflict" ? (
          <Notice kind="stop" title="This machine was changed meanwhile">
            <p>Nothing was overwritten, and your figure still stands here.</p>
            <Button onClick={() => void keepOnTop(unsent)}>Read it again and keep my figure</Button>
          </Notice>
        ) : null}
        {standing.kind === "failed" ? (
          <ErrorNotice
            failure={standing.failure}
            kept="Your figure is still here. Keep it again when this is put right."
          />
        ) : null}
      </AnswerForm>
    </div>
  );
}

function boundsWords(question: Question): string {
  const { usual_low: low, usual_high: high } = question;
  const usual = low === null || high === null ? "" : `Mostly ${rangeInWords(low, high, question)}. `;
  return `${usual}It can be ${limitsInWords(question)}.`;
}
