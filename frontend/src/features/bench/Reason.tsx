// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { Field } from "../../ui/Field";
import { MainBar, Tap } from "./MainBar";

interface Props {
  readonly title: string;
  /** Reasons that need no typing. */
  readonly ready: readonly string[];
  readonly done: string;
  readonly onGive: (reason: string) => void;
  readonly onBack: () => void;
}

/** Ask for a reason; it goes into the record. */
export function Reason({ title, ready, done, onGive, onBack }: Props): ComponentChild {
  const [text, setText] = useState("");
  const given = text.trim();
  return (
    <section class="ask">
      <h2>{title}</h2>
      <p>The reason goes into the record.</p>
      <div class="taps">
        {ready.map((reason) => (
          <Tap key={reason} pressed={text === reason} onPress={() => setText(reason)}>
            {reason}
          </Tap>
        ))}
      </div>
      <Field label="In your words" value={text} onInput={setText} />
      <div class="floor">
        <div class="taps">
          <Tap onPress={onBack}>Go back</Tap>
        </div>
        <MainBar title={done} disabled={given === ""} onPress={() => onGive(given.slice(0, 500))} />
      </div>
    </section>
  );
}
