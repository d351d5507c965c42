// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { counted } from "../../lib/figures";
import { Button } from "../../ui/Button";
import { queueName, saveQueue, shareable, shareQueue } from "./saveQueue";
import type { Session } from "./session";
import "./home.css";

/** On a carried page: all its taps as a file that the app takes in. */
export function TakeHome({ session }: { readonly session: Session }): ComponentChild {
  const [saved, setSaved] = useState<number | null>(null);
  const { queued } = session.standing.value;
  const save = async (): Promise<void> => {
    await saveQueue(session);
    setSaved(queued);
  };
  return (
    <section class="take-home" aria-label="The way home">
      <div class="row">
        <Button disabled={queued === 0} onClick={() => void save()}>
          Take the taps home ({queued})
        </Button>
        {queued > 0 && shareable() ? (
          <Button onClick={() => void shareQueue(session).catch(() => undefined)}>Send them from here</Button>
        ) : null}
      </div>
      <p role="status">{saved === null ? "" : savedWords(session, saved, queued)}</p>
    </section>
  );
}

function savedWords(session: Session, saved: number, queued: number): string {
  const since = queued > saved ? ` ${counted(String(queued - saved), "tap")} more since: save them once more.` : "";
  return (
    `${queueName(session)} was saved with ${counted(String(saved), "tap")}. At home, open this job in the app, ` +
    `then More and “Bring a carried page home”. They stay here as well.${since}`
  );
}
