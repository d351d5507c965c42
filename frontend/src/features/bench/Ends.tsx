// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { BenchState, FollowUpState } from "../../bench/state";
import { say } from "../../display";
import { to } from "../../routes";
import { Field } from "../../ui/Field";
import { Unfold } from "../../ui/Unfold";
import { LinkButton } from "../../ui/LinkButton";
import { AbsWords } from "./AbsUnit";
import { ByLever } from "./Gate";
import { MainBar, Tap } from "./MainBar";
import { Reason } from "./Reason";
import type { Session } from "./session";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
}

/** Everything before rolling is answered: the machine was checked standing. */
export function ReadyToRoll({ session }: Props): ComponentChild {
  return (
    <section class="ask">
      <h2>Every screw is shut and every question answered.</h2>
      <p>That was checked standing. The first stop, at walking pace and with room ahead, is the next check.</p>
      <div class="floor">
        <MainBar
          title="Ready to roll"
          words="checked standing, nothing more"
          onPress={() => void session.write({ kind: "ended", end: "ready to roll", reason: null })}
        />
      </div>
    </section>
  );
}

export function FirstStop({ session }: Props): ComponentChild {
  return (
    <section class="ask">
      <h2>First stop: at walking pace, with room ahead.</h2>
      <p>Pump until firm before it moves. Roll slowly, stop, and feel whether the lever stays where it was.</p>
      <div class="floor">
        <MainBar
          title="First stop done"
          words="the lever stayed firm"
          onPress={() => void session.write({ kind: "ended", end: "first stop done", reason: null })}
        />
      </div>
    </section>
  );
}

const FIRM_WORDS: Readonly<Record<string, string>> = { firm: "firm", soft: "soft", waived: "waived" };

/** The rechecks with their times; closed once each is firm or waived. */
export function Rechecks({ session, state }: Props): ComponentChild {
  const [waived, setWaived] = useState<string | null>(null);
  if (waived !== null) {
    return (
      <Reason
        title={`Waive the recheck: ${waived}`}
        ready={["owner will do it", "checked elsewhere"]}
        done="Waive it"
        onBack={() => setWaived(null)}
        onGive={(reason) => {
          session.write({ kind: "rechecked", follow_up: waived, answer: "waived", reason });
          setWaived(null);
        }}
      />
    );
  }
  const isOpen = state.follow_ups.some((one) => one.answer !== "firm" && one.answer !== "waived");
  return (
    <section class="ask">
      <h2>{isOpen ? "Look again, hot and the next morning." : "Both rechecks are answered."}</h2>
      <ol class="rechecks">
        {state.follow_ups.map((one) => (
          <Recheck key={one.id} session={session} one={one} onWaive={() => setWaived(one.id)} />
        ))}
      </ol>
      {isOpen ? <ByLever session={session} state={state} /> : null}
      {isOpen ? (
        <p class="soft">The job can wait. Come back to it when a recheck is due.</p>
      ) : (
        <div class="floor">
          <MainBar
            title="Close the job"
            onPress={() => void session.write({ kind: "ended", end: "closed", reason: null })}
          />
        </div>
      )}
    </section>
  );
}

function Recheck(props: { session: Session; one: FollowUpState; onWaive: () => void }): ComponentChild {
  const { session, one, onWaive } = props;
  const words = session.sheet.follow_ups.find(({ id }) => id === one.id)?.words ?? one.id;
  const answer = (given: "firm" | "soft"): void =>
    void session.write({ kind: "rechecked", follow_up: one.id, answer: given, reason: null });
  return (
    <li class="recheck">
      <p>
        <strong>{say(words)}</strong>
      </p>
      <p>
        {one.due_at === null ? "" : dueWords(one.due_at)}
        {one.answer === null ? "" : ` · answered: ${FIRM_WORDS[one.answer]}${one.reason === null ? "" : ` (${one.reason})`}`}
      </p>
      {one.answer === "soft" ? (
        <p class="ask-no" role="status">
          <span class="mark mark-stop" aria-hidden="true" /> Soft: do not ride. Find out why; the ten symptoms help.
        </p>
      ) : null}
      <div class="taps">
        <Tap pressed={one.answer === "firm"} onPress={() => answer("firm")}>
          Firm
        </Tap>
        <Tap pressed={one.answer === "soft"} onPress={() => answer("soft")}>
          Soft
        </Tap>
        <Tap pressed={one.answer === "waived"} onPress={onWaive}>
          Waive
        </Tap>
      </div>
    </li>
  );
}

export function dueWords(due: string): string {
  const at = new Date(due);
  const words = new Intl.DateTimeFormat("en-GB", {
    weekday: "long",
    day: "numeric",
    month: "long",
    hour: "2-digit",
    minute: "2-digit",
  }).format(at);
  return at.getTime() <= Date.now() ? `due since ${words}` : `due ${words}`;
}

/** The job is closed or given up: sign it and take the record. What came after a signature wants another. */
export function Over({ session, state }: Props): ComponentChild {
  const [name, setName] = useState(session.hand.who);
  const isClosed = state.phase === "closed";
  const { signed } = state;
  const isCurrent = signed !== null && session.events.value.at(-1)?.kind === "signed";
  return (
    <section class="ask">
      <h2>{isClosed ? "The job is closed." : "The job was given up."}</h2>
      {isClosed ? null : <p>The machine does not move until somebody has finished it or made it safe.</p>}
      {session.sheet.has_modulator ? (
        <Unfold summary="The ABS unit">
          <AbsWords session={session} state={state} />
        </Unfold>
      ) : null}
      <p>
        {signed === null ? "The record is not signed yet." : `Signed by ${signed.name}.`}
        {signed === null || isCurrent ? "" : " Something was written down since."}
      </p>
      {isCurrent ? null : <Field label="Your name" value={name} onInput={setName} />}
      {session.carried === null ? null : <p>The record is told at home, once the taps are there.</p>}
      <div class="floor">
        {session.carried === null ? (
          <div class="taps">
            <LinkButton href={to.record(session.id)}>Take the record</LinkButton>
          </div>
        ) : null}
        {isCurrent ? null : (
          <MainBar
            title={signed === null ? "Sign the record" : "Sign it again"}
            words={name}
            disabled={name.trim() === ""}
            onPress={() => void session.write({ kind: "signed", name: name.trim().slice(0, 60) })}
          />
        )}
      </div>
    </section>
  );
}
