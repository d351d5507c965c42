// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useRef, useState } from "preact/hooks";

import { Button } from "../../../ui/Button";
import { Field } from "../../../ui/Field";
import { Screen } from "../../../ui/Screen";
import { useTalkKeys } from "../keys";
import { usualName, type Answers } from "./answers";

const MOST_LETTERS = 80;

interface Props {
  readonly answers: Answers;
  readonly onAnswer: (name: string) => void;
}

/** What the machine is called in the list. */
export function NamePage({ answers, onAnswer }: Props): ComponentChild {
  const usual = usualName(answers.bike_class ?? "commuter");
  const [name, setName] = useState(answers.name ?? "");
  const form = useRef<HTMLFormElement>(null);
  const said = name.trim();
  const tooLong = said.length > MOST_LETTERS;
  const toBox = (): void => form.current?.querySelector("input")?.focus();
  const goOn = (): void => {
    if (tooLong) toBox();
    else onAnswer(said || usual);
  };
  useTalkKeys({ onEnter: goOn, onFigure: toBox });
  return (
    <Screen title="What do you call it?" lead="So that you find it again in the list.">
      <form
        class="talk-form"
        ref={form}
        onSubmit={(event) => {
          event.preventDefault();
          goOn();
        }}
      >
        <Field
          label="Its name"
          value={name}
          onInput={setName}
          hint={`Left empty, it is “${usual}”.`}
          error={tooLong ? `That is ${said.length} letters: at most ${MOST_LETTERS} fit.` : null}
        />
        <div class="row">
          <Button kind="do" type="submit">
            {said ? "Go on" : "Go on without a name"}
          </Button>
        </div>
      </form>
    </Screen>
  );
}
