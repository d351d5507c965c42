// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { RecordGate } from "../../api/record";
import { say } from "../../display";
import { timeWords } from "../../lib/dates";

interface Props {
  readonly title: string;
  readonly gates: readonly RecordGate[];
  readonly keep: readonly string[];
}

const ANSWERS: Readonly<Record<string, string>> = {
  yes: "Yes",
  no: "No",
  "does not apply": "Does not apply",
  overridden: "Gone on without",
};

/** What was asked and how it was answered; whatever is no plain yes stands out. */
export function Gates({ title, gates, keep }: Props): ComponentChild {
  if (gates.length === 0) return null;
  return (
    <section class="record-part">
      <h2>{title}</h2>
      <ul class="record-lines">
        {gates.map((gate) => (
          <li key={gate.id}>
            <strong class={gate.answer === "yes" ? undefined : "record-apart"}>{answerWords(gate)}</strong>{" "}
            {say(gate.words, keep)} <span class="record-who">{whoWords(gate)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function answerWords({ answer, reason }: RecordGate): string {
  if (answer === null) return "Not answered:";
  const words = ANSWERS[answer] ?? answer;
  return reason === null ? `${words}:` : `${words}, ${reason}:`;
}

function whoWords({ who, at }: RecordGate): string {
  return who === null || at === null ? "" : `${who}, ${timeWords(at)}`;
}
