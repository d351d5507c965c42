// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { airFound } from "../../bench/measured";
import type { Gate as GateOfSheet } from "../../bench/sheet";
import type { BenchState } from "../../bench/state";
import { say } from "../../display";
import { to } from "../../routes";
import { LinkButton } from "../../ui/LinkButton";
import { Unfold } from "../../ui/Unfold";
import { BottleEntry } from "./BottleEntry";
import type { Local } from "./local";
import { MainBar, Tap } from "./MainBar";
import { Reason } from "./Reason";
import type { Session } from "./session";
import { NO_ASIDE } from "./local";
import { airWords, givenNames } from "./words";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly local: Local;
  readonly gate: GateOfSheet;
  readonly number: number;
  readonly of: number;
}

/** A sentence this short is written large. */
const SHORT = 50;
const READY_REASONS = ["done before", "the manual says otherwise", "no way to check it here"];

/** One question before something is opened or rolls: one tap. */
export function Gate({ session, state, local, gate, number, of }: Props): ComponentChild {
  const keep = givenNames(session.sheet);
  const isNo = state.gates[gate.id]?.answer === "no";
  if (local.aside.kind === "override" && local.aside.gate === gate.id) {
    return (
      <Reason
        title={say(`Go on without it: ${gate.words}`, keep)}
        ready={READY_REASONS}
        done="Go on without it"
        onBack={() => local.show(NO_ASIDE)}
        onGive={(reason) => {
          session.write({ kind: "gate", gate: gate.id, answer: "overridden", reason });
          local.show(NO_ASIDE);
        }}
      />
    );
  }
  const isStep = gate.see !== null;
  const answer = (given: "yes" | "no" | "does not apply"): void =>
    void session.write({ kind: "gate", gate: gate.id, answer: given, reason: null });
  return (
    <section class="ask">
      <p class="soft">
        {number} of {of}
      </p>
      <h2 class={gate.words.length < SHORT ? "ask-question" : isStep ? "ask-step" : undefined}>{say(gate.words, keep)}</h2>
      {isStep && isNo ? null : <p>{say(gate.why, keep)}</p>}
      {isStep && !isNo && gate.stop !== null ? <p class="soft">{say(gate.stop, keep)}</p> : null}
      {isNo ? (
        <p class="ask-no" role="status">
          <span class="mark mark-stop" aria-hidden="true" />{" "}
          {gate.stop === null ? "Answered with no. Put it right first, then press Yes." : say(gate.stop, keep)}
        </p>
      ) : null}
      {gate.id === "fluid" ? (
        <Unfold summary={state.bottles.length === 0 ? "Write the bottle down for the record" : "The bottle is written down"}>
          <BottleEntry session={session} state={state} />
        </Unfold>
      ) : null}
      {gate.id === "firm" ? <ByLever session={session} state={state} /> : null}
      <div class="floor">
        <div class="taps">
          {isNo ? null : <Tap onPress={() => answer("no")}>{isStep ? "Nothing comes" : "No"}</Tap>}
          {isStep ? null : <Tap onPress={() => answer("does not apply")}>Does not apply</Tap>}
          <Tap onPress={() => local.show({ kind: "override", gate: gate.id })}>Go on without</Tap>
        </div>
        <MainBar title={isStep ? "I see it" : "Yes"} words={isStep ? "the reservoir is topped up" : ""} onPress={() => answer("yes")} />
      </div>
    </section>
  );
}

interface LeverProps {
  readonly session: Session;
  readonly state: BenchState;
  /** What the link says as long as nothing was measured. */
  readonly first?: string;
}

/** A scale and a ruler say more than a hand; what they said stands here, and the answer stays the person's. */
export function ByLever({ session, state, first = "Answer it with a lever test" }: LeverProps): ComponentChild {
  const found = airFound(state.measured);
  // a clutch lever feels its spring; a carried page has no server to judge readings
  if (session.sheet.control === "clutch lever" || session.carried !== null) return null;
  return (
    <>
      {found === null ? null : <p role="status">{airWords(found)}</p>}
      <p class="row">
        <LinkButton href={to.leverForJob(session.machine, session.sheet.circuit, session.id)}>
          {found === null ? first : "Another lever test"}
        </LinkButton>
      </p>
    </>
  );
}
