// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";

import type { Look } from "../../bench/event";
import { beatsOf, staysOpen } from "./beat";
import { keepSet, useLeading, type RunningSet } from "./leading";
import { MainBar } from "./MainBar";
import { LatestMark, Marks } from "./Marks";
import { leverDegrees } from "./Rhythm";
import type { Session } from "./session";
import { pace } from "./settings";
import { Sight, stateWith } from "./Sight";

interface Props {
  readonly session: Session;
  readonly set: RunningSet;
  /** The set is over or was halted. */
  readonly onHalt: (set: RunningSet) => void;
}

/** A set under way: the screen leads, one press anywhere on the bar halts it. */
export function Leading({ session, set, onHalt }: Props): ComponentChild {
  const { sheet } = session;
  const isStill = useMemo(() => matchMedia("(prefers-reduced-motion: reduce)").matches, []);
  const [logged, setLogged] = useState(set.logged);
  const box = useRef<HTMLDivElement>(null);
  const beats = useMemo(() => {
    if (sheet.pace_s === null) return null;
    return beatsOf(sheet.technique, pace.value ?? (sheet.pace_s.low + sheet.pace_s.high) / 2);
  }, [sheet]);
  const { done, beat } = useLeading({
    beats,
    size: set.size,
    isSwinging: !isStill,
    onLever: (lever) => {
      const arm = box.current?.querySelector<SVGElement>(".rhythm-lever");
      if (arm) arm.style.transform = `rotate(${leverDegrees(lever)}deg)`;
    },
    onDone: (all) => onHalt({ ...set, done: all, logged }),
  });
  const halt = (): void => onHalt({ ...set, done, logged });
  const latest = useRef(halt);
  latest.current = halt;
  useEffect(() => keepSet({ ...set, done, logged }), [set, done, logged]);
  useEffect(() => {
    // A page out of sight cannot lead: what was counted then would be guessed.
    const onHidden = (): void => {
      if (document.visibilityState === "hidden") latest.current();
    };
    document.addEventListener("visibilitychange", onHidden);
    return () => document.removeEventListener("visibilitychange", onHidden);
  }, []);
  const mark = (look: Look): void => {
    // What ran so far is written down first, so that the mark stands at the right millilitre.
    const { point } = set;
    if (done > logged) session.write({ kind: "set_done", point, count: done - logged }, { kind: "mark", point, look });
    else session.write({ kind: "mark", point, look });
    setLogged(done);
  };

  const events = session.events.value;
  const now = useMemo(() => stateWith(session, set.point, done - logged), [events, set.point, done, logged]);
  const setWords = beats === null ? `${done} of ${set.size} seconds` : `stroke ${Math.min(done + 1, set.size)} of ${set.size}`;
  const isOpen = beat === null ? true : beat.isOpen || staysOpen(sheet.technique);
  return (
    <div ref={box}>
      <LatestMark session={session} point={set.point} />
      <Sight
        session={session}
        state={now}
        move={beat === null ? "let it run" : beat.words}
        lever={beats === null ? null : isStill ? 0 : (beat?.lever[0] ?? 0)}
        isOpen={isOpen}
      />
      <div class="floor">
        <Marks onMark={mark} />
        {beats === null ? (
          <MainBar
            kind={done >= set.size ? "stop" : "plain"}
            title={done >= set.size ? "Shut it now" : "Screw shut"}
            words={`${setWords} · press when it is shut`}
            onPress={halt}
          />
        ) : (
          <MainBar kind="plain" title="Pause" words={`${setWords}${set.isSample ? " into the small cup" : ""}`} onPress={halt} />
        )}
      </div>
    </div>
  );
}
