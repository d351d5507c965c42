// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { say } from "../display";
import { cautionsOf, FIRST_AUTHORITY, type Caution } from "../lib/cautions";
import { Unfold } from "./Unfold";

interface Named {
  /** Names that people gave. */
  readonly keep: readonly string[];
}

/** Each with what it is about. */
export function CautionList({ cautions, keep }: Named & { readonly cautions: readonly Caution[] }): ComponentChild {
  return (
    <ul class="cautions">
      {cautions.map(({ topic, words }) => (
        <li key={topic + words}>
          {topic ? <strong>{say(topic, keep)}: </strong> : null}
          {say(words, keep)}
        </li>
      ))}
    </ul>
  );
}

/** All of them, unfolded, and who comes first. */
export function CautionsInFull({ texts, keep }: Named & { readonly texts: readonly string[] }): ComponentChild {
  return (
    <Unfold summary="Cautions" open>
      <CautionList cautions={cautionsOf(texts)} keep={keep} />
      <p>
        <strong>{say(FIRST_AUTHORITY)}</strong>
      </p>
    </Unfold>
  );
}
