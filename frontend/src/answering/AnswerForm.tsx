// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";

import type { Question } from "../api/circuits";
import type { AnswerValue } from "../api/shapes";
import { say } from "../display";
import { Button } from "../ui/Button";
import { Field } from "../ui/Field";
import { Switch } from "../ui/Switch";
import "./answering.css";
import { HowWell } from "./HowWell";
import { alikeOf, boxUnit, givenNames, isPistons } from "./naming";
import { boxesOf, readBoxes, unusualIn, type Box, type Boxes, type Faults } from "./reading";

interface Props {
  readonly question: Question;
  /** The caliper clasps its disc from both sides. */
  readonly isOpposed: boolean;
  readonly isSending: boolean;
  /** What keeping leads to: "Keep and go on". */
  readonly keepWords: string;
  readonly onKeep: (value: AnswerValue, alsoAlike: boolean) => void;
  readonly onUnknown: () => void;
  /** What became of the answer, said above the buttons. */
  readonly children?: ComponentChildren;
}

/** The answer to one question: a value, about, from and to, or don't know. */
export function AnswerForm(props: Props): ComponentChild {
  const { question, isSending, keepWords, onKeep, onUnknown, children } = props;
  const [boxes, setBoxes] = useState<Boxes>(() => boxesOf(question));
  const [faults, setFaults] = useState<Faults>({});
  const [isAlike, setAlike] = useState(true);
  const form = useRef<HTMLFormElement>(null);
  const put = (change: Partial<Boxes>): void => {
    setBoxes({ ...boxes, ...change });
    setFaults({});
  };
  const read = readBoxes(boxes, question);
  const unusual = read.ok ? unusualIn(read.value, question) : "";
  const keep = (): void => {
    if (read.ok) {
      onKeep(read.value, isAlike);
      return;
    }
    setFaults(read.reason);
    const wrong = Object.keys(read.reason)[0];
    form.current?.querySelector<HTMLInputElement>(`[data-box="${wrong}"] .box`)?.focus();
  };
  return (
    <form
      class="answer-form"
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      {isPistons(question) ? (
        <PistonBoxes question={question} isOpposed={props.isOpposed} boxes={boxes} faults={faults} put={put} />
      ) : (
        <FigureBoxes question={question} boxes={boxes} faults={faults} put={put} />
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
      {children}
      <div class="row">
        <Button kind="do" type="submit" busy={isSending}>
          {unusual ? "Keep it all the same" : keepWords}
        </Button>
        <Button onClick={onUnknown} busy={isSending}>
          Don't know
        </Button>
      </div>
    </form>
  );
}

interface BoxesProps {
  readonly question: Question;
  readonly boxes: Boxes;
  readonly faults: Faults;
  readonly put: (change: Partial<Boxes>) => void;
}

function PistonBoxes(props: BoxesProps & { isOpposed: boolean }): ComponentChild {
  const { isOpposed, ...shared } = props;
  return (
    <>
      <OneBox {...shared} name="value" label="Sizes of its pistons" hint="One for each piston, with a space between: 32 28." />
      {isOpposed ? (
        <Switch
          label="The other side has the same"
          hint="Type one side only; it counts twice."
          on={props.boxes.isOneSide}
          onChange={(isOneSide) => props.put({ isOneSide })}
        />
      ) : null}
    </>
  );
}

const OF_MODE: Readonly<Record<Boxes["mode"], readonly (readonly [Box, string])[]>> = {
  value: [["value", "The value"]],
  give: [
    ["value", "About"],
    ["give", "Give or take"],
  ],
  between: [
    ["low", "From"],
    ["high", "To"],
  ],
};

function FigureBoxes(props: BoxesProps): ComponentChild {
  const { mode } = props.boxes;
  return (
    <>
      <HowWell mode={mode} onChange={(chosen) => props.put({ mode: chosen })} />
      <div class="answer-boxes">
        {OF_MODE[mode].map(([name, label]) => (
          <OneBox key={name} {...props} name={name} label={label} />
        ))}
      </div>
    </>
  );
}

function OneBox(props: BoxesProps & { name: Box; label: string; hint?: string }): ComponentChild {
  const { question, boxes, faults, put, name, label, hint } = props;
  return (
    <div data-box={name}>
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
}
