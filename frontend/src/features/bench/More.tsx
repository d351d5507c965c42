// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { BenchState } from "../../bench/state";
import { say } from "../../display";
import { to } from "../../routes";
import { CautionsInFull } from "../../ui/Cautions";
import { Field } from "../../ui/Field";
import { LinkButton } from "../../ui/LinkButton";
import { Unfold } from "../../ui/Unfold";
import { SCREEN_TIMEOUT, type Awake } from "./awake";
import { AbsWords } from "./AbsUnit";
import { Carry } from "./Carry";
import { BottleEntry } from "./BottleEntry";
import { HowItLeads } from "./HowItLeads";
import { NO_ASIDE, type Local } from "./local";
import { MainBar, Tap } from "./MainBar";
import { saveQueue } from "./saveQueue";
import { LevelWords, ServedHow } from "./ServedHow";
import type { Session } from "./session";
import { givenNames } from "./words";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly local: Local;
  readonly awake: Awake;
}

/** All that is not the next step: cautions, level, notes, settings, the way out. */
export function More({ session, state, local, awake }: Props): ComponentChild {
  const { sheet } = session;
  const isOpen = state.phase !== "closed" && state.phase !== "given up";
  const keep = givenNames(sheet);
  const close = (): void => local.show(NO_ASIDE);
  return (
    <section class="ask">
      <div class="taps">
        <LinkButton href={to.symptoms()}>Ten symptoms</LinkButton>
        {session.carried === null ? <LinkButton href={to.record(session.id)}>The record so far</LinkButton> : null}
        {state.phase === "working" ? <Tap onPress={() => local.show({ kind: "tube" })}>Judge the bubbles</Tap> : null}
        {state.phase === "working" ? <Tap onPress={() => local.show({ kind: "cup" })}>Read the cup</Tap> : null}
        {state.phase === "working" ? <Tap onPress={() => local.show({ kind: "level" })}>Read or fill the reservoir</Tap> : null}
        {state.phase === "working" ? <Tap onPress={() => local.show({ kind: "leave screw" })}>Leave this screw</Tap> : null}
        {state.phase === "working" || state.phase === "before rolling" ? (
          <Tap onPress={() => local.show({ kind: "screws" })}>To another screw</Tap>
        ) : null}
        {isOpen && !state.is_paused ? (
          <Tap
            onPress={() => {
              session.write({ kind: "paused" });
              close();
            }}
          >
            Pause the job
          </Tap>
        ) : null}
        {isOpen ? <Tap onPress={() => local.show({ kind: "give up" })}>Give the job up</Tap> : null}
      </div>
      <CautionsInFull texts={sheet.cautions} keep={keep} />
      <Unfold summary={`Steps of the technique: ${sheet.technique}`}>
        <ol class="step-list">
          {sheet.technique_steps.map((one) => (
            <li key={one}>{say(one, keep)}</li>
          ))}
        </ol>
      </Unfold>
      <Unfold summary="How it leads: tones, voice, pace, pedals">
        <HowItLeads session={session} />
      </Unfold>
      <Unfold summary="The bottle of fluid">
        <BottleEntry session={session} state={state} />
      </Unfold>
      <Unfold summary="A note for the record">
        <Note session={session} />
      </Unfold>
      {isOpen && sheet.has_modulator ? (
        <Unfold summary="The ABS unit">
          <AbsWords session={session} state={state} />
        </Unfold>
      ) : null}
      <Unfold summary="This device">
        {session.carried === null ? <ServedHow /> : <LevelWords level={session.carried} />}
        <p>
          {session.hand.who}, {session.hand.device}.{" "}
          {awake === "kept on" ? "The screen is kept on." : SCREEN_TIMEOUT}
        </p>
        {session.carried === null ? <WithTheLaptop session={session} /> : null}
      </Unfold>
      {session.carried === null ? (
        <Unfold summary="Carry the job out of reach, bring it home">
          <Carry job={session.id} />
        </Unfold>
      ) : null}
      <div class="floor">
        <MainBar title="Back to the work" onPress={close} />
      </div>
    </section>
  );
}

function WithTheLaptop({ session }: { session: Session }): ComponentChild {
  return (
    <>
      <p>
        {session.standing.value.lasts
          ? "Taps are kept on this device until the laptop names each of them."
          : "This browser keeps nothing: taps live in this page until the laptop names each of them."}
      </p>
      <div class="taps">
        <Tap onPress={() => void saveQueue(session)}>Save the waiting taps as a file</Tap>
        <LinkButton href={to.phones()}>Phones</LinkButton>
        <LinkButton href={to.machine(session.machine)}>To the machine</LinkButton>
      </div>
    </>
  );
}

function Note({ session }: { session: Session }): ComponentChild {
  const [text, setText] = useState("");
  const [isKept, setKept] = useState(false);
  return (
    <>
      <Field
        label="Note"
        value={text}
        onInput={(next) => {
          setText(next);
          setKept(false);
        }}
      />
      <div class="taps">
        <Tap
          onPress={() => {
            if (text.trim() === "") return;
            session.write({ kind: "note", text: text.trim().slice(0, 500) });
            setText("");
            setKept(true);
          }}
        >
          Write it down
        </Tap>
      </div>
      <p role="status">{isKept ? "Written down." : ""}</p>
    </>
  );
}
