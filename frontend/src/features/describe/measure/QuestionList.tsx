// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Question } from "../../../api/circuits";
import { say } from "../../../display";
import { Unfold } from "../../../ui/Unfold";
import { addressWith } from "../address";
import { gainInWords, givenInWords, givenNames, titleOf } from "./naming";

/** Every question of the circuit, to go to any of them. */
export function QuestionList({ questions }: { questions: readonly Question[] }): ComponentChild {
  const known = questions.filter((one) => one.given !== null).length;
  return (
    <Unfold summary={`All ${questions.length} questions, ${known} of them answered`}>
      <ul class="question-list">
        {questions.map((one) => (
          <li key={one.key}>
            <a href={addressWith("ask", one.key)} class="question-link">
              {say(titleOf(one), givenNames(one))}
            </a>
            <span class="soft">
              {[givenInWords(one), gainInWords(one)].filter(Boolean).join(" · ")}
            </span>
          </li>
        ))}
      </ul>
    </Unfold>
  );
}
