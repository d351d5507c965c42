// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { makeMachine, type MachineDetail } from "../../../api/machines";
import { say } from "../../../display";
import type { Failure } from "../../../lib/request";
import { Button } from "../../../ui/Button";
import { Notice } from "../../../ui/Notice";
import { Screen } from "../../../ui/Screen";
import { to } from "../../../routes";
import { goTo, useAsked } from "../address";
import { useKept } from "../session";
import { AnswerCards } from "./AnswerCards";
import {
  answersCheck,
  CHECK,
  circuitOf,
  firstOpen,
  leftInWords,
  outlineOf,
  stepAfter,
  stepAt,
  stepBefore,
  type Answers,
  type Step,
} from "./answers";
import { CheckAnswers } from "./CheckAnswers";
import { DraftDrawing } from "./DraftDrawing";
import { JustKept } from "./JustKept";
import { NamePage } from "./NamePage";
import { QUESTIONS } from "./questions";

import "../describe.css";

const AT = "at";
const KEPT_AS = "new machine";

/** The talk that describes a new machine: its kind, then what can be seen, one question a page. */
export function NewMachine(): ComponentChild {
  const [answers, setAnswers] = useKept<Answers>(KEPT_AS, answersCheck, {});
  const [isSending, setSending] = useState(false);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [made, setMade] = useState<MachineDetail | null>(null);
  const address = useAsked(AT);
  if (made) return <JustKept machine={made} />;

  const step = stepAt(address, answers);
  const outline = outlineOf(answers);
  const answer = (of: Step, value: Answers[Step]): void => {
    const next = { ...answers, [of]: value } as Answers;
    setAnswers(next);
    setFailure(null);
    const after = stepAfter(of, next);
    // Whoever came back to change one answer goes on to the next open one.
    goTo(AT, firstOpen(next) === CHECK && firstOpen(answers) === CHECK ? CHECK : after);
  };
  const send = async (): Promise<void> => {
    if (!outline) return;
    setSending(true);
    const answered = await makeMachine(outline);
    setSending(false);
    if (!answered.ok) {
      setFailure(answered.reason);
      return;
    }
    setAnswers({});
    setMade(answered.value);
  };
  const startAfresh = (): void => {
    setAnswers({});
    goTo(AT, null);
  };

  return (
    <div class={outline ? "talk" : ""}>
      <div class="talk-page" key={step}>
        {step === CHECK ? (
          <CheckAnswers
            answers={answers}
            isSending={isSending}
            failure={failure}
            onSend={() => void send()}
            onChange={(of) => goTo(AT, of)}
          />
        ) : step === "name" ? (
          <NamePage answers={answers} onAnswer={(name) => answer("name", name)} />
        ) : (
          <Screen
            title={say(QUESTIONS[step].title)}
            lead={say(QUESTIONS[step].where)}
            {...(step === "bike_class" && { back: { href: to.machines(), name: "Machines" } })}
          >
            {step === "bike_class" && answers.bike_class !== undefined && address === null ? (
              <Notice kind="note" title="What you answered before is still here">
                <div class="row">
                  <Button kind="do" onClick={() => goTo(AT, firstOpen(answers))}>
                    Go on where you were
                  </Button>
                  <Button onClick={startAfresh}>Start afresh</Button>
                </div>
              </Notice>
            ) : null}
            <AnswerCards
              label={say(QUESTIONS[step].title)}
              cards={QUESTIONS[step].cards}
              given={answers[step]}
              unknown={QUESTIONS[step].unknown}
              onAnswer={(value) => answer(step, value as Answers[Step])}
            />
          </Screen>
        )}
        <TalkFoot step={step} answers={answers} />
      </div>
      {outline ? (
        <aside class="talk-drawing" aria-label="The circuit so far">
          <DraftDrawing outline={outline} circuit={circuitOf(step)} />
        </aside>
      ) : null}
    </div>
  );
}

function TalkFoot(props: { step: Step | typeof CHECK; answers: Answers }): ComponentChild {
  const { step, answers } = props;
  const before = stepBefore(step, answers);
  return (
    <div class="talk-foot">
      {step === CHECK ? null : <p class="soft">{leftInWords(step, answers)}</p>}
      <div class="row">
        {before ? <Button onClick={() => goTo(AT, before)}>Back</Button> : null}
        {step === CHECK || answers.bike_class === undefined ? null : (
          <Button onClick={() => goTo(AT, CHECK)}>Enough: leave the rest open</Button>
        )}
      </div>
    </div>
  );
}
