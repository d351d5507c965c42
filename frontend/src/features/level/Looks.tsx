// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { takeLookBack, type KeptLook, type Seen } from "../../api/looks";
import { dayShown, shown, unit } from "../../display";
import { plain } from "../../lib/figures";
import type { Failure } from "../../lib/request";
import { recall } from "../../lib/storage";
import { text } from "../../lib/validate";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { wordsOf } from "./Glass";

interface Props {
  readonly machine: string;
  readonly circuit: string;
  readonly looks: readonly KeptLook[];
  readonly onChanged: () => void;
}

/** The looks that were kept; each may be taken back and then stays as such. */
export function Looks({ machine, circuit, looks, onChanged }: Props): ComponentChild {
  const [failure, setFailure] = useState<Failure | null>(null);
  const back = async (one: KeptLook): Promise<void> => {
    const answer = await takeLookBack(machine, circuit, one.id, recall("bench who", text, "") || one.who);
    setFailure(answer.ok ? null : answer.reason);
    if (answer.ok) onChanged();
  };
  if (looks.length === 0) return null;
  return (
    <section class="level-part" aria-labelledby="level-looks">
      <h2 id="level-looks">Looks kept</h2>
      <p class="soft">What a look taken back said was poured in does not count either.</p>
      {failure ? <ErrorNotice failure={failure} /> : null}
      <ul class="level-list">
        {looks.map((one) => (
          <li key={one.id} class="level-look">
            <span>
              <strong>{dayShown(one.look.on)}</strong>: {levelOf(one.look)}, by {one.who}
              {one.taken_back ? ` (taken back by ${one.taken_back.who})` : ""}
            </span>
            {one.taken_back ? null : (
              <Button onClick={() => void back(one)}>
                Take back<span class="only-heard"> the look of {dayShown(one.look.on)}</span>
              </Button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function levelOf({ measure, level }: Seen): string {
  if (measure === "level_share") return wordsOf(level);
  const metric = measure === "level_ml" ? "ml" : "mm";
  const figure = `${plain(Number(shown(level, metric).toPrecision(3)))} ${unit(metric)}`;
  return measure === "level_ml" ? figure : `${figure} below MAX`;
}
