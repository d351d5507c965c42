// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import { gainInWords, givenInWords, givenNames, titleOf } from "../../../answering/naming";
import type { Question } from "../../../api/circuits";
import { say } from "../../../display";
import { Unfold } from "../../../ui/Unfold";
import { addressWith } from "../address";
import { LEAST_PER_CENT } from "./order";

type Listed = readonly Question[];

/** Every question of the circuit, to go to any of them. */
export function QuestionList({ questions }: { questions: Listed }): ComponentChild {
  const known = questions.filter((one) => one.given !== null);
  const open = questions.filter((one) => one.given === null);
  return (
    <Unfold summary={`All ${questions.length} questions, ${known.length} of them answered`}>
      <Group title="Open, and worth an answer" questions={open.filter(isWorth)} />
      <Group title="Answered roughly, worth a closer look" questions={known.filter(isWorth)} />
      <Group title="Answered" questions={known.filter((one) => !isWorth(one))} />
      <Group title="Open, and changing next to nothing" questions={open.filter((one) => !isWorth(one))} />
    </Unfold>
  );
}

function isWorth(question: Question): boolean {
  return question.per_cent >= LEAST_PER_CENT;
}

/** Questions under a title; nothing where there are none. */
function Group({ title, questions }: { title: string; questions: Listed }): ComponentChild {
  const id = useId();
  if (questions.length === 0) return null;
  return (
    <div class="question-group">
      <h2 id={id} class="question-group-title">
        {title}
      </h2>
      <QuestionLinks questions={questions} labelledBy={id} />
    </div>
  );
}

/** Links to questions, each with what is known and what an answer would bring. */
export function QuestionLinks(props: { questions: Listed; labelledBy: string }): ComponentChild {
  return (
    <ul class="question-list" aria-labelledby={props.labelledBy}>
      {props.questions.map((one) => (
        <li key={one.key}>
          <a href={addressWith("ask", one.key)} class="question-link">
            {say(titleOf(one), givenNames(one))}
          </a>
          <span class="soft">{[givenInWords(one), gainInWords(one)].filter(Boolean).join(" · ")}</span>
        </li>
      ))}
    </ul>
  );
}
