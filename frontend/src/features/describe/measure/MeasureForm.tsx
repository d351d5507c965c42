// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useRef, useState } from "preact/hooks";

import type { Question } from "../../../api/circuits";
import type { AnswerValue } from "../../../api/shapes";
import { say } from "../../../display";
import { Button } from "../../../ui/Button";
import { Field } from "../../../ui/Field";
import { Switch } from "../../../ui/Switch";
import { useTalkKeys } from "../keys";
import { HowWell } from "./HowWell";
import { alikeOf, boxUnit, givenNames, isPistons } from "./naming";
import { boxesOf, readBoxes, unusualIn, type Box, type Boxes, type Faults } from "./reading";

interface Props {
  readonly question: Question;
  /** The caliper clasps its disc from both sides. */
  readonly isOpposed: boolean;
  readonly isSending: boolean;
  readonly onKeep: (value: AnswerValue, alsoAlike: boolean) => void;
  readonly onUnknown: () => void;
}

/** A value, about, or don't know. */
export function MeasureForm(props: Props): ComponentChild {
  const { question, isOpposed, isSending, onKeep, onUnknown } = props;
  const [boxes, setBoxes] = useState<Boxes>(() => boxesOf(question));
  const [faults, setFaults] = useState<Faults>({});
  const [isAlike, setAlike] = useState(true);
  const form = useRef<HTMLFormElement>(null);
  const put = (change: Partial<Boxes>): void => {
    setBoxes({ ...boxes, ...change });
    setFaults({});
  };
  const firstBox = (): void => form.current?.querySelector<HTMLInputElement>(".box")?.focus();
  const keep = (): void => {
    const read = readBoxes(boxes, question);
    if (read.ok) {
      onKeep(read.value, isAlike);
      return;
    }
    setFaults(read.reason);
    const wrong = Object.keys(read.reason)[0];
    form.current?.querySelector<HTMLInputElement>(`[data-box="${wrong}"] .box`)?.focus();
  };
  useTalkKeys({ onEnter: keep, onFigure: firstBox });

  const read = readBoxes(boxes, question);
  const unusual = read.ok ? unusualIn(read.value, question) : "";
  const box = (name: Box, label: string, hint?: string): ComponentChild => (
    <div class="measure-box" data-box={name}>
      <Field
        label={label}
        value={boxes[name]}
        onInput={(value) => put({ [name]: value })}
        unit={boxUnit(question)}
        inputMode={isPistons(question) ? "text" : "decimal"}
        error={faults[name] ?? null}
        {...(hint && { hint })}
      />
    </div>
  );
  return (
    <form
      class="talk-form"
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      {isPistons(question) ? (
        <>
          {box("value", "Sizes of its pistons", "One for each piston, with a space between: 32 28.")}
          {isOpposed ? (
            <Switch
              label="The other side has the same"
              hint="Type one side only; it counts twice."
              on={boxes.isOneSide}
              onChange={(isOneSide) => put({ isOneSide })}
            />
          ) : null}
        </>
      ) : (
        <>
          <HowWell mode={boxes.mode} onChange={(mode) => put({ mode })} />
          <div class="measure-boxes">
            {boxes.mode === "value" ? box("value", "The value") : null}
            {boxes.mode === "give" ? (
              <>
                {box("value", "About")}
                {box("give", "Give or take")}
              </>
            ) : null}
            {boxes.mode === "between" ? (
              <>
                {box("low", "From")}
                {box("high", "To")}
              </>
            ) : null}
          </div>
        </>
      )}
      <p class="unusual" aria-live="polite">
        {unusual ? <span class="unusual-words">{unusual}</span> : null}
      </p>
      {question.also.length > 0 ? (
        <Switch
          label={`${say("The same on", givenNames(question))} ${alikeOf(question)}`}
          on={isAlike}
          onChange={setAlike}
        />
      ) : null}
      <div class="row">
        <Button kind="do" type="submit" busy={isSending}>
          {unusual ? "Keep it all the same" : "Keep and go on"}
        </Button>
        <Button onClick={onUnknown} busy={isSending}>
          Don't know
        </Button>
      </div>
    </form>
  );
}
