// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect } from "preact/hooks";

import { whyWords } from "../../bench/said";
import type { BenchState } from "../../bench/state";
import type { JobSheet } from "../../bench/sheet";
import { say } from "../../display";
import { capital } from "../../lib/words";
import { useAwake } from "./awake";
import { screwWords } from "./ChooseScrew";
import { useTapsFirst } from "./frames";
import { giveFocusBack, usePedal } from "./keys";
import { NO_ASIDE, useLocal } from "./local";
import { MainBar } from "./MainBar";
import { More } from "./More";
import { isAlarm } from "./PotGlass";
import type { Session } from "./session";
import { keepSettings } from "./settings";
import { alarm } from "./sound";
import { Sight } from "./Sight";
import { StandingLine } from "./StandingLine";
import { nextStep, type Step } from "./step";
import { Taps, undoable } from "./Taps";
import { deedWords, givenNames, phaseWords } from "./words";
import { Work } from "./Work";

const ALARM_MS = 6000;

/** One job at the bench, led step by step. */
export function Bench({ session }: { readonly session: Session }): ComponentChild {
  const local = useLocal();
  const awake = useAwake();
  const state = session.state.value;
  const events = session.events.value;
  const step = nextStep(session.sheet, state, events, local.skipped);
  useEffect(() => session.follow(), [session]);
  useEffect(keepSettings, []);
  useTapsFirst();
  const isLoud = state.phase === "working" && isAlarm(state.pot);
  useEffect(() => {
    if (!isLoud) return;
    const sound = (): void => alarm("top up");
    sound();
    const timer = setInterval(sound, ALARM_MS);
    return () => clearInterval(timer);
  }, [isLoud]);
  const last = undoable(events).at(-1);
  const undoLast = last && ((): void => session.undo(last.id));
  usePedal({
    main: () => document.querySelector<HTMLButtonElement>(".bar-main:not(:disabled)")?.click(),
    undo: undoLast ?? null,
  });
  const isMore = local.aside.kind === "more";
  const title = isMore ? "More" : titleOf(session.sheet, state, step);
  useEffect(() => {
    document.title = `${title} · firmlever`;
  }, [title]);
  const keep = givenNames(session.sheet);
  return (
    // The taps inside are buttons of their own; this only hands the focus on.
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-static-element-interactions
    <div class={isLoud ? "bench bench-loud" : "bench"} onClick={giveFocusBack}>
      <StandingLine session={session} />
      <div class="bench-head">
        <h1>{capital(say(title, keep))}</h1>
        <p class="bench-where">{say(whereWords(session.sheet, state), keep)}</p>
      </div>
      {state.work_why === null || state.phase === "closed" ? null : (
        <p class="work-why">
          <span class="mark mark-stop" aria-hidden="true" /> This is a bleed now: {whyWords(state.work_why)}.
        </p>
      )}
      {isMore ? (
        <More {...{ session, state, local, awake }} />
      ) : leads(session, state) ? (
        <Watching session={session} state={state} />
      ) : state.is_paused ? (
        <PausedJob session={session} place={placeOf(session.sheet, state, step)} onGoOn={() => local.show(NO_ASIDE)} />
      ) : (
        <Work {...{ session, state, step, local }} />
      )}
      <div class="under">
        {last && undoLast ? (
          <button type="button" class="tap tap-last" onClick={undoLast}>
            <span aria-hidden="true">↶</span>
            <span class="tap-short">Undo: {say(deedWords(session.sheet, last), keep)}</span>
          </button>
        ) : (
          <p class="soft under-nothing">Nothing to undo yet</p>
        )}
        {isMore ? null : (
          <button type="button" class="tap" onClick={() => local.show({ kind: "more" })}>
            Cautions, more
          </button>
        )}
      </div>
      <Taps session={session} />
    </div>
  );
}

/** Work pauses: what to look at before one leaves, and where one was. */
function PausedJob(props: { session: Session; place: string; onGoOn: () => void }): ComponentChild {
  return (
    <section class="ask">
      <p class="ask-large">Before you leave: screw shut, lever let go, cover on the reservoir, tube still in its bottle.</p>
      <p>The place is kept: {props.place}.</p>
      <div class="floor">
        <MainBar
          title="Go on"
          words="the screw is still shut, the level was looked at"
          onPress={() => {
            props.session.write({ kind: "resumed" });
            props.onGoOn();
          }}
        />
      </div>
    </section>
  );
}

/** Whether another device leads the job, so that this one only watches. */
function leads(session: Session, state: BenchState): boolean {
  const isOver = state.phase === "closed" || state.phase === "given up";
  return !isOver && state.leader !== null && state.leader !== session.hand.device;
}

/** What another device is doing; nothing can be written from here before one goes on here. */
function Watching({ session, state }: { session: Session; state: BenchState }): ComponentChild {
  return (
    <section class="ask">
      <p class="watching">
        <strong>{state.leader}</strong> leads; this device watches.
      </p>
      {state.point === null ? null : (
        <Sight session={session} state={state} move="watching" lever={null} isOpen={false} />
      )}
      <div class="floor">
        <MainBar
          title="Go on from here"
          words="the screw is shut, the other hand has stopped"
          onPress={() => session.write({ kind: "resumed" })}
        />
      </div>
    </section>
  );
}

function titleOf(sheet: JobSheet, state: BenchState, step: Step): string {
  return state.is_paused ? "The job is paused" : placeOf(sheet, state, step);
}

function placeOf(sheet: JobSheet, state: BenchState, step: Step): string {
  const at = state.point === null ? undefined : sheet.points[state.point];
  switch (step.kind) {
    case "gate":
    case "cycle unit":
    case "second pass":
    case "ready":
    case "first stop":
    case "rechecks":
    case "over":
      return phaseWords(state);
    case "draw down":
    case "fill":
      return "The reservoir first";
    case "choose screw":
      return "Which screw now?";
    default:
      return at?.at ?? phaseWords(state);
  }
}

function whereWords(sheet: JobSheet, state: BenchState): string {
  const base = `${sheet.bike} · ${sheet.circuit}`;
  const at = state.point === null ? undefined : sheet.points[state.point];
  if (state.phase !== "working" || at === undefined) return base;
  return `${screwWords(at)} · screw ${(state.point ?? 0) + 1} of ${sheet.points.length}`;
}
