// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Question } from "../../../api/circuits";
import type { MachineDetail } from "../../../api/machines";
import { to } from "../../../routes";
import { Button } from "../../../ui/Button";
import { LinkButton } from "../../../ui/LinkButton";
import { Screen } from "../../../ui/Screen";
import { worthACloserLook } from "./order";
import { QuestionLinks } from "./QuestionList";

const MOST_SHOWN = 3;
const ROUGH_TITLE = "rough-title";

interface Props {
  readonly machine: MachineDetail;
  readonly circuit: string;
  readonly questions: readonly Question[];
  /** How many questions were left with "don't know". */
  readonly unknown: number;
  readonly onAskAgain: () => void;
}

/** The end of the questions. */
export function NothingLeft({ machine, circuit, questions, unknown, onAskAgain }: Props): ComponentChild {
  const others = machine.circuits.filter((one) => one.name !== circuit);
  const rough = worthACloserLook(questions, MOST_SHOWN);
  return (
    <Screen
      title="That is all that is worth asking"
      lead={
        rough.length > 0
          ? "What is still open would change this plan by next to nothing."
          : "What is left to measure would change this plan by next to nothing."
      }
      back={{ href: to.machine(machine.id), name: machine.name }}
    >
      <div class="row">
        <LinkButton kind="do" href={to.plan(machine.id, circuit)}>
          Plan the {circuit} flush
        </LinkButton>
        {unknown > 0 ? (
          <Button onClick={onAskAgain}>
            {unknown === 1 ? "Ask again what I did not know" : `Ask the ${unknown} again that I did not know`}
          </Button>
        ) : null}
      </div>
      {rough.length > 0 ? (
        <section class="question-group" aria-labelledby={ROUGH_TITLE}>
          <h2 id={ROUGH_TITLE}>A closer look at these would help more</h2>
          <QuestionLinks questions={rough} labelledBy={ROUGH_TITLE} />
        </section>
      ) : null}
      {others.length > 0 ? (
        <div class="row">
          {others.map((one) => (
            <LinkButton key={one.name} href={to.questions(machine.id, one.name)}>
              Questions about the {one.name}
            </LinkButton>
          ))}
        </div>
      ) : null}
    </Screen>
  );
}
