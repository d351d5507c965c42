// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { Button } from "../../ui/Button";
import { Hook } from "./Hook";
import { told, workedBy } from "./told";

const NEED = [
  "A hanging scale, hooked on the lever 50 mm in from its end, pulled square to it.",
  "A ruler held still, its zero where that point rests.",
  "For the sharpest look, wedges of wood or plastic for the pads; for a hold, a clock.",
];

const MIND = [
  "Every screw is shut, the reservoir's cover is on, the machine stands firm.",
  "The brake is as warm as the workshop: half an hour after a ride.",
  "Read as the force goes up; a lever that is let back starts the set again.",
  "Take the wedges out before anything moves, and pump until the lever is firm.",
];

/** What one needs and what to mind, before the first reading. */
export function Need({ onStart }: { readonly onStart: () => void }): ComponentChild {
  return (
    <section class="lever-part" aria-labelledby="lever-need">
      <h2 id="lever-need">What you need</h2>
      {workedBy.value === "pedal" ? null : <Hook />}
      <List texts={NEED} />
      <h2>Mind</h2>
      <List texts={MIND} />
      <p>
        <Button kind="do" onClick={onStart}>
          Start reading
        </Button>
      </p>
    </section>
  );
}

function List({ texts }: { texts: readonly string[] }): ComponentChild {
  return (
    <ul class="lever-list">
      {texts.map((text) => (
        <li key={text}>{told(text)}</li>
      ))}
    </ul>
  );
}
