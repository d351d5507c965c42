// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { Look } from "../../bench/event";
import type { JobSheet } from "../../bench/sheet";
import type { BenchState } from "../../bench/state";
import { say } from "../../display";
import { CycleUnit, SecondPass } from "./AbsUnit";
import { staysOpen } from "./beat";
import { ChooseScrew } from "./ChooseScrew";
import { CupEntry } from "./CupEntry";
import { EvidenceRows, isContested, isProven } from "./EvidenceRows";
import { FirstStop, Over, ReadyToRoll, Rechecks } from "./Ends";
import { AirList } from "./AirList";
import { ByLever, Gate } from "./Gate";
import { Leading } from "./Leading";
import { interruptedSet, keepSet, type RunningSet } from "./leading";
import { NO_ASIDE, type Local } from "./local";
import { MainBar, Tap } from "./MainBar";
import { LatestMark, Marks } from "./Marks";
import { Reason } from "./Reason";
import type { Session } from "./session";
import { SetEnd } from "./SetEnd";
import { tapped } from "./settings";
import { Sight } from "./Sight";
import { wakeSound } from "./sound";
import { looksDone, SAMPLE_ML, screwGate, type Step } from "./step";
import { TopUp } from "./TopUp";
import { TubeTest } from "./TubeTest";
import { counts, potDeed } from "./words";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly step: Step;
  readonly local: Local;
}

type Running = { readonly set: RunningSet; readonly is: "led" | "asked" };

/** The next step, whatever it is; a set under way comes before everything. */
export function Work(props: Props): ComponentChild {
  const { session, state, step, local } = props;
  const [running, setRunning] = useState<Running | null>(() => {
    const set = interruptedSet(session.id);
    return set === null ? null : { set, is: "asked" };
  });
  const halt = (set: RunningSet): void => {
    keepSet(set);
    setRunning({ set, is: "asked" });
  };
  const over = (): void => {
    keepSet(null);
    setRunning(null);
  };
  if (running?.is === "led") return <Leading session={session} set={running.set} onHalt={halt} />;
  if (running?.is === "asked") return <SetEnd session={session} set={running.set} onWritten={over} />;
  const aside = asideOf(props);
  if (aside !== null) return aside;
  const lead = (size: number, isSample: boolean): void => {
    wakeSound();
    if (state.point === null) return;
    setRunning({ set: { job: session.id, point: state.point, size, done: 0, logged: 0, isSample }, is: "led" });
  };
  const own: Step = local.aside.kind === "judge" && step.kind === "set" ? { kind: "judge", size: step.size } : step;
  switch (own.kind) {
    case "gate":
      return <Gate {...{ session, state, local }} gate={own.gate} number={own.number} of={own.of} />;
    case "cycle unit":
      return <CycleUnit {...{ session, state, local }} />;
    case "second pass":
      return <SecondPass {...{ session, state, local }} />;
    case "ready":
      return <ReadyToRoll session={session} state={state} />;
    case "first stop":
      return <FirstStop session={session} state={state} />;
    case "rechecks":
      return <Rechecks session={session} state={state} />;
    case "over":
      return <Over session={session} state={state} />;
    case "draw down":
    case "fill":
      return <Reservoir {...props} />;
    case "choose screw":
      return <ChooseScrew session={session} state={state} next={own.next} />;
    case "cup":
      return <CupAt {...props} />;
    case "sample":
    case "set":
    case "judge":
      return <AtScrew {...props} step={own} onLead={lead} />;
    case "top up":
      return state.point === null || state.phase !== "working" ? (
        <TopUp session={session} state={state} />
      ) : (
        <AtScrew {...props} step={own} onLead={lead} />
      );
  }
}

function asideOf({ session, state, local }: Props): ComponentChild {
  const { point } = state;
  const close = (): void => local.show(NO_ASIDE);
  switch (local.aside.kind) {
    case "give up":
      return (
        <Reason
          title="Give the job up"
          ready={["a screw will not turn", "a part is missing", "beyond what can be done here"]}
          done="Give it up"
          onBack={close}
          onGive={(reason) => {
            session.write({ kind: "ended", end: "given up", reason });
            close();
          }}
        />
      );
    case "level":
      return <TopUp session={session} state={state} onDone={close} />;
    case "tube":
      return point === null ? null : <TubeTest session={session} point={point} onDone={close} />;
    case "screws":
      return <ChooseScrew session={session} state={state} next={null} onChosen={close} />;
    case "cup":
      return point === null || state.turns[point]?.count === 0 ? null : (
        <CupEntry {...{ session, state, point }} onDone={close} onSkip={close} />
      );
    case "leave screw":
      return point === null ? null : <LeaveScrew {...{ session, point }} onDone={close} />;
    case "done anyway": {
      if (point === null) return null;
      // what is still to be seen at this screw comes before any word that it is done
      const asked = screwGate(session.sheet, state, point, "shutting");
      if (asked !== null) return <Gate {...{ session, state, local }} gate={asked.gate} number={asked.number} of={asked.of} />;
      return <DoneAnyway {...{ session, point }} onDone={close} />;
    }
    default:
      return null;
  }
}

function LeaveScrew(props: { session: Session; point: number; onDone: () => void }): ComponentChild {
  const { session, point, onDone } = props;
  return (
    <Reason
      title="Shut this screw and leave it as it is"
      ready={["for now, coming back to it", "good enough this time", "out of fluid"]}
      done="Shut, not done"
      onBack={onDone}
      onGive={(reason) => {
        session.write({ kind: "shut", point, is_done: false, reason });
        onDone();
      }}
    />
  );
}

function DoneAnyway(props: { session: Session; point: number; onDone: () => void }): ComponentChild {
  const { session, point, onDone } = props;
  return (
    <Reason
      title="Done here, though not everything says so"
      ready={["the tube runs clear", "the manual's amount went through", "the figures do not fit this machine"]}
      done="Shut: done here"
      onBack={onDone}
      onGive={(reason) => {
        session.write({ kind: "shut", point, is_done: true, reason });
        onDone();
      }}
    />
  );
}

function CupAt({ session, state, local }: Props): ComponentChild {
  const { point } = state;
  if (point === null) return null;
  return (
    <CupEntry {...{ session, state, point }} onDone={() => undefined} onSkip={() => local.skip("cups", point)} />
  );
}

/** The reservoir first: the old fluid out of it, then filled. */
function Reservoir({ session, state, step }: Props): ComponentChild {
  const isUp = session.sheet.direction === "up";
  if (step.kind === "draw down") {
    return (
      <section class="ask">
        <p class="ask-large">
          Draw the old fluid out of the reservoir and wipe it. Leave a little over the port at its floor, so that no air gets in.
        </p>
        <div class="floor">
          <MainBar title="Drawn down and wiped" onPress={() => void session.write({ kind: "drawn_down" })} />
        </div>
      </section>
    );
  }
  const hasLine = session.sheet.reservoir.fill_to_ml !== null && !isUp;
  return (
    <section class="ask">
      <p class="ask-large">
        {isUp
          ? "Fluid will come up here: leave the level at MIN, and lay the cover on loosely."
          : "Fill it with fresh fluid and lay the cover on: it stays on while the lever moves."}
      </p>
      {session.sheet.work === "bleed" ? <ByLever session={session} state={state} first="Lever test first, to compare with afterwards" /> : null}
      <div class="floor">
        {hasLine ? (
          <div class="taps">
            <Tap onPress={() => void session.write({ kind: "topped_up", to: "fill line" })}>Filled to the line only</Tap>
          </div>
        ) : null}
        <MainBar
          title={isUp ? "The level is at MIN" : "Filled to MAX"}
          onPress={() => void session.write({ kind: "topped_up", to: isUp ? 0 : "max" })}
        />
      </div>
    </section>
  );
}

interface AtScrewProps extends Props {
  readonly onLead: (size: number, isSample: boolean) => void;
}

/** Between two sets at a screw: what was seen, whether it is done, and the next set. */
function AtScrew(props: AtScrewProps): ComponentChild {
  const { session, state, step } = props;
  const { sheet } = session;
  const { point } = state;
  const turn = point === null ? undefined : state.turns[point];
  if (point === null || turn === undefined) return null;
  const onMark = (look: Look): void => void session.write({ kind: "mark", point, look });
  const isOpen = sheet.pace_s === null || staysOpen(sheet.technique);
  return (
    <>
      <LatestMark session={session} point={point} />
      <AirList sheet={sheet} state={state} />
      {step.kind === "judge" || isContested(turn) ? <EvidenceRows sheet={sheet} turn={turn} /> : null}
      <Sight
        session={session}
        state={state}
        move={step.kind === "top up" ? "stop" : "ready"}
        lever={sheet.pace_s === null ? null : 0}
        isOpen={isOpen && step.kind !== "top up" && turn.count > 0}
      />
      {step.kind === "top up" ? (
        <TopUp session={session} state={state} />
      ) : (
        <>
          <Beside {...props} point={point} />
          <div class="floor">
            <Marks onMark={onMark} />
            <Next {...props} point={point} />
          </div>
        </>
      )}
    </>
  );
}

/** What else can be done between two sets. */
function Beside(props: AtScrewProps & { readonly point: number }): ComponentChild {
  const { session, step, state, local, point } = props;
  const turn = state.turns[point];
  const judge = <Tap onPress={() => local.show({ kind: "tube" })}>Judge the bubbles</Tap>;
  switch (step.kind) {
    case "judge":
      return (
        <div class="taps">
          {turn !== undefined && looksDone(turn) ? (
            <Tap
              onPress={() => {
                local.skip("more", point);
                local.show(NO_ASIDE);
              }}
            >
              Go on here
            </Tap>
          ) : (
            <Tap onPress={() => local.show({ kind: "done anyway" })}>Done all the same</Tap>
          )}
          {judge}
        </div>
      );
    case "sample":
      return (
        <div class="taps">
          {tapsEach(session.sheet) ? (
            <Tap onPress={() => void session.write({ kind: "sample", point, ml: SAMPLE_ML })}>{SAMPLE_ML} ml caught apart</Tap>
          ) : null}
          <Tap onPress={() => local.skip("samples", point)}>No sample here</Tap>
        </div>
      );
    case "set":
      return turn === undefined || turn.count === 0 ? null : (
        <div class="taps">
          <Tap onPress={() => local.show({ kind: "judge" })}>Done here?</Tap>
          {turn.marks.at(-1)?.look === "bubbles" ? judge : null}
        </div>
      );
    default:
      return null;
  }
}

/** Whether every stroke is tapped by hand; seconds never are. */
function tapsEach(sheet: JobSheet): boolean {
  return tapped.value && sheet.unit.name === "stroke";
}

/** What to mind with the next set; a leaning reservoir can be levelled, which vouches for more. */
function setWords({ pot, posture }: BenchState): string {
  if (pot.call !== "watch") return "tube under fluid, spanner on";
  return posture === "side stand" ? "not vouched for: level the reservoir, or keep your eyes on it" : "not vouched for: keep your eyes on the level";
}

function Next(props: AtScrewProps & { readonly point: number }): ComponentChild {
  const { session, state, step, local, onLead, point } = props;
  const { sheet } = session;
  const turn = state.turns[point];
  if (step.kind === "judge" && turn !== undefined && looksDone(turn)) {
    return (
      <MainBar
        title="Shut: done here"
        words={isProven(turn) ? "everything says yes" : "nothing says no"}
        onPress={() => {
          session.write({ kind: "shut", point, is_done: true, reason: null });
          local.show(NO_ASIDE);
        }}
      />
    );
  }
  if (step.kind === "sample" && !tapsEach(sheet)) {
    return (
      <MainBar
        title={`Catch ${SAMPLE_ML} ml apart`}
        words={say(`${counts(sheet, step.size)} into a small cup: what sat behind this screw`)}
        onPress={() => onLead(step.size, true)}
      />
    );
  }
  if (step.kind === "top up" || !("size" in step)) return null;
  if (tapsEach(sheet)) {
    return (
      <MainBar
        title="One stroke done"
        words={`${potDeed(sheet).in} ${counts(sheet, state.pot.counts_left)}`}
        onPress={() => void session.write({ kind: "set_done", point, count: 1 })}
      />
    );
  }
  return (
    <MainBar
      title={`${sheet.unit.name === "stroke" ? "Lead" : "Run"} ${counts(sheet, step.size)}`}
      words={setWords(state)}
      onPress={() => {
        local.show(NO_ASIDE);
        onLead(step.size, false);
      }}
    />
  );
}
