// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Question } from "../../../api/circuits";
import type { MachineDetail } from "../../../api/machines";
import { say } from "../../../display";
import { Picture } from "../../../pictures";
import { to } from "../../../routes";
import { Screen } from "../../../ui/Screen";
import { MeasureForm } from "./MeasureForm";
import { gainInWords, givenNames, isOpposed, pictureOf, rangeInWords, titleOf } from "../../../answering/naming";
import type { AnswerValue } from "../../../api/shapes";

interface Props {
  readonly machine: MachineDetail;
  readonly circuit: string;
  readonly question: Question;
  readonly isSending: boolean;
  readonly notice: ComponentChild;
  readonly onKeep: (value: AnswerValue, alsoAlike: boolean) => void;
  readonly onUnknown: () => void;
}

/** One thing to measure: where, how, what is usual, and three ways to answer. */
export function QuestionPage(props: Props): ComponentChild {
  const { machine, circuit, question, notice } = props;
  const { usual_low: low, usual_high: high } = question;
  const names = givenNames(question);
  const gain = gainInWords(question);
  const asked = say(titleOf(question), names);
  return (
    <Screen title={asked} back={{ href: to.machine(machine.id), name: machine.name }}>
      <div class="how">
        <div class="how-picture">
          <Picture name={pictureOf(question)} />
        </div>
        <div class="how-words">
          <p>
            <strong>How to find out:</strong> {say(question.measure, names)}.
          </p>
          {low !== null && high !== null ? (
            <p>
              <strong>Usual:</strong> {rangeInWords(low, high, question)}
            </p>
          ) : null}
          {gain ? <p class="gain">{gain}</p> : null}
        </div>
      </div>
      {notice}
      <MeasureForm
        question={question}
        isOpposed={isOpposed(machine, circuit, question)}
        isSending={props.isSending}
        onKeep={props.onKeep}
        onUnknown={props.onUnknown}
      />
    </Screen>
  );
}
