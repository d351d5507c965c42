// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { differenceOf, type DifferentLine } from "../../lib/difference";
import { Button } from "../../ui/Button";
import { Notice } from "../../ui/Notice";

interface Props {
  readonly theirs: string;
  readonly yours: string;
  readonly isBusy: boolean;
  readonly onKeepYours: () => void;
  readonly onTakeTheirs: () => void;
}

/** Somebody saved first: both texts where they differ, and whose stands is for a person to say. */
export function Conflict({ theirs, yours, isBusy, onKeepYours, onTakeTheirs }: Props): ComponentChild {
  const apart = differenceOf(theirs, yours)
    .map((line, position) => ({ ...line, position }))
    .filter((line) => line.side !== "both");
  return (
    <Notice kind="stop" title="Somebody saved this machine first">
      <p>Nothing was overwritten. Here is where the two differ; your text stays below until you choose.</p>
      {apart.length === 0 ? (
        <p>They do not differ: both of you wrote the same.</p>
      ) : (
        <ul class="apart" aria-label="Where the two texts differ">
          {apart.map((line) => (
            <li key={line.position} class={`apart-${line.side}`}>
              <span class="apart-side">{SIDES[line.side]}</span>
              <code>{line.text.trim() === "" ? "an empty line" : line.text}</code>
            </li>
          ))}
        </ul>
      )}
      <p class="row">
        <Button kind="stop" busy={isBusy} onClick={onKeepYours}>
          Save yours over theirs
        </Button>
        <Button onClick={onTakeTheirs}>Take theirs, drop yours</Button>
      </p>
    </Notice>
  );
}

const SIDES: Readonly<Record<DifferentLine["side"], string>> = {
  both: "",
  theirs: "theirs",
  yours: "yours",
};
