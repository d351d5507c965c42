// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

import { getQuestions, type Question } from "../../api/circuits";
import type { MachineDetail } from "../../api/machines";
import type { Narrow } from "../../api/plan";
import type { AnswerValue } from "../../api/shapes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Field } from "../../ui/Field";
import { Load } from "../../ui/Load";
import { Notice } from "../../ui/Notice";
import { useResource } from "../../ui/resource";
import { HowWell } from "../describe/measure/HowWell";
import { boxUnit, isPistons, limitsInWords, ownerOf, rangeInWords } from "../describe/measure/naming";
import { boxesOf, readBoxes, unusualIn, type Box, type Boxes, type Faults } from "../describe/measure/reading";
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

function Form({ question, machine, onKept, onClose }: Props & { question: Question }): ComponentChild {
  const [boxes, setBoxes] = useState<Boxes>(() => boxesOf(question));
  const [faults, setFaults] = useState<Faults>({});
  const [unsent, setUnsent] = useState<AnswerValue | null>(null);
  const { standing, keep, keepOnTop } = useAnswering(machine, onKept);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector<HTMLInputElement>(".box")?.focus(), []);

  const changesTo = (value: AnswerValue | null) =>
    [question.key, ...question.also].map((key) => ({ key, value }));
  const send = (value: AnswerValue | null): void => {
    setUnsent(value);
    void keep(changesTo(value));
  };
  const put = (change: Partial<Boxes>): void => {
    setBoxes({ ...boxes, ...change });
    setFaults({});
  };
  const read = readBoxes(boxes, question);
  const unusual = read.ok ? unusualIn(read.value, question) : "";
  const box = (name: Box, label: string): ComponentChild => (
    <Field
      label={label}
      value={boxes[name]}
      onInput={(value) => put({ [name]: value })}
      unit={boxUnit(question)}
      inputMode={isPistons(question) ? "text" : "decimal"}
      error={faults[name] ?? null}
    />
  );
  return (
    <form
      class="answer"
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (read.ok) send(read.value);
        else setFaults(read.reason);
      }}
    >
      <p class="soft">{boundsWords(question)}</p>
      {isPistons(question) ? null : <HowWell mode={boxes.mode} onChange={(mode) => put({ mode })} />}
      <div class="answer-boxes">
        {isPistons(question) ? box("value", "Sizes of its pistons, with a space between") : null}
        {!isPistons(question) && boxes.mode === "value" ? box("value", "The value") : null}
        {boxes.mode === "give" ? [box("value", "About"), box("give", "Give or take")] : null}
        {boxes.mode === "between" ? [box("low", "From"), box("high", "To")] : null}
      </div>
      <p role="status">{unusual}</p>
      {question.also.length > 0 ? <p>It counts for {question.also.map(ownerOf).join(" and ")} too.</p> : null}
      {standing.kind === "conflict" ? (
        <Notice kind="stop" title="This machine was changed meanwhile">
          <p>Nothing was overwritten, and your figure still stands here.</p>
          <Button onClick={() => void keepOnTop(changesTo(unsent))}>Read it again and keep my figure</Button>
        </Notice>
      ) : null}
      {standing.kind === "failed" ? (
        <ErrorNotice failure={standing.failure} kept="Your figure is still here. Keep it again when this is put right." />
      ) : null}
      <div class="row">
        <Button kind="do" type="submit" busy={standing.kind === "sending"}>
          {unusual ? "Keep it all the same" : "Keep and plan again"}
        </Button>
        <Button onClick={() => (question.given === null ? onClose() : send(null))} busy={standing.kind === "sending"}>
          Don't know
        </Button>
      </div>
    </form>
  );
}

function boundsWords(question: Question): string {
  const { usual_low: low, usual_high: high } = question;
  const usual = low === null || high === null ? "" : `Mostly ${rangeInWords(low, high, question)}. `;
  return `${usual}It can be ${limitsInWords(question)}.`;
}
