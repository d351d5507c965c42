// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { say } from "../../../display";
import type { Failure } from "../../../lib/request";
import { Button } from "../../../ui/Button";
import { ErrorNotice } from "../../../ui/ErrorNotice";
import { Screen } from "../../../ui/Screen";
import { useTalkKeys } from "../keys";
import { stepsFor, usualName, type Answers, type Step } from "./answers";
import { QUESTIONS, saidAs } from "./questions";

interface Props {
  readonly answers: Answers;
  readonly isSending: boolean;
  readonly failure: Failure | null;
  readonly onSend: () => void;
  readonly onChange: (step: Step) => void;
}

/** All answers together, before the machine is kept. */
export function CheckAnswers(props: Props): ComponentChild {
  const { answers, isSending, failure, onSend, onChange } = props;
  useTalkKeys({ onEnter: onSend });
  return (
    <Screen title="Is it like this?" lead="Everything can still be changed later.">
      <ul class="told">
        {stepsFor(answers).map((step) => (
          <li key={step} class="told-row">
            <span class="told-what soft">{say(step === "name" ? "Name" : QUESTIONS[step].short)}</span>
            <span class="told-answer">{said(step, answers)}</span>
            <button
              type="button"
              class="link"
              aria-label={`Change: ${say(step === "name" ? "Name" : QUESTIONS[step].short)}`}
              onClick={() => onChange(step)}
            >
              Change
            </button>
          </li>
        ))}
      </ul>
      {failure ? (
        <ErrorNotice failure={failure} onAgain={onSend} kept="Your answers are still here, in this tab." />
      ) : null}
      <div class="row">
        <Button kind="do" busy={isSending} onClick={onSend}>
          Keep this machine
        </Button>
      </div>
    </Screen>
  );
}

function said(step: Step, answers: Answers): string {
  if (step === "name") return saidAs(step, answers) || usualName(answers.bike_class ?? "commuter");
  return say(saidAs(step, answers));
}
