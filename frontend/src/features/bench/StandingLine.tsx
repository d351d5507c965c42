// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Level } from "../../api/serving";
import { whyWords } from "../../bench/said";
import { counted } from "../../lib/figures";
import { capital } from "../../lib/words";
import { LevelWords } from "./ServedHow";
import type { Session } from "./session";
import { Notice } from "../../ui/Notice";
import { Button } from "../../ui/Button";
import { refusalWords } from "./words";
import "./home.css";

/** Whether the laptop has every tap; what waits is counted, what it refused is shown. */
export function StandingLine({ session }: { readonly session: Session }): ComponentChild {
  const { queued, refused, reachable, trouble, lasts, unkept } = session.standing.value;
  if (session.carried !== null) return <CarriedLine session={session} level={session.carried} />;
  return (
    <>
      <p class={reachable === false ? "standing standing-away" : "standing"} role="status">
        <svg class="standing-shape" viewBox="0 0 16 16" aria-hidden="true">
          {reachable === false ? <path d="M8 2l7 12H1z" /> : <circle cx="8" cy="8" r="6" />}
        </svg>
        {standingWords(reachable, queued)}
      </p>
      {unkept ? (
        <Notice kind="stop" title="This device could not write the tap down">
          <p>It is held only while this page stays open. Free some room, and keep the page open until the laptop has it.</p>
        </Notice>
      ) : !lasts && queued > 0 ? (
        <p class="standing-more">This browser keeps nothing: leave the page open until the laptop has the taps.</p>
      ) : null}
      {trouble !== null && queued > 0 ? (
        <Notice kind="stop" title="The laptop could not keep the taps">
          <p class="said">{trouble}</p>
          <p>They stay here and are sent again.</p>
        </Notice>
      ) : null}
      {refused.length > 0 ? (
        <Notice kind="stop" title={`The laptop refused ${refused.length === 1 ? "one tap" : `${refused.length} taps`}`}>
          <ul class="refused">
            {refused.map((entry) => (
              <li key={entry.id}>{refusalWords(entry.refused ?? "")}</li>
            ))}
          </ul>
          <p>They stay here. Nothing is thrown away.</p>
          <Button onClick={() => void session.outbox.retry()}>Send them again</Button>
        </Notice>
      ) : null}
      <OutOfPlace session={session} />
    </>
  );
}

/** Where nothing is ever sent: which page this is, how much it holds, and what it lacks. */
function CarriedLine({ session, level }: { session: Session; level: Level }): ComponentChild {
  const { queued, lasts, unkept } = session.standing.value;
  return (
    <>
      <details class="standing-carried">
        <summary>
          <span role="status">
            {capital(level.name)}: nothing is sent · {queued === 0 ? "no tap yet" : `${counted(String(queued), "tap")} to take home`}
          </span>
        </summary>
        <LevelWords level={level} />
      </details>
      {unkept || !lasts ? (
        <Notice kind="stop" title={unkept ? "This device could not write the tap down" : "This browser keeps nothing"}>
          <p>Leave this page open, and take the taps home before you close or reload it.</p>
        </Notice>
      ) : null}
      <OutOfPlace session={session} />
    </>
  );
}

function standingWords(reachable: boolean | null, queued: number): string {
  const waiting = queued === 1 ? "1 tap waits here" : `${queued} taps wait here`;
  if (reachable === false) return `Laptop not reachable · ${queued === 0 ? "nothing waits here" : waiting}`;
  if (queued > 0) return `Sending · ${waiting}`;
  return reachable === null ? "Looking for the laptop" : "Laptop reached · every tap kept";
}

/** Events that came out of place change nothing; they are told, not hidden. */
function OutOfPlace({ session }: { session: Session }): ComponentChild {
  const { refused, doubts } = session.state.value;
  const strange = session.strange.value;
  if (refused.length + doubts.length + strange.length === 0) return null;
  return (
    <details class="out-of-place">
      <summary>
        {refused.length + doubts.length + strange.length} {refused.length + doubts.length + strange.length === 1 ? "entry needs" : "entries need"} a look
      </summary>
      <ul>
        {refused.map((one) => (
          <li key={one.event}>Not counted: {whyWords(one.why)}.</li>
        ))}
        {doubts.map((one) => (
          <li key={one.event + one.code}>Doubt: {whyWords(one.code)}.</li>
        ))}
        {strange.map((one) => (
          <li key={one}>Not understood: {one}.</li>
        ))}
      </ul>
    </details>
  );
}
