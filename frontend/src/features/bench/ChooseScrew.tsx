// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { SheetPoint } from "../../bench/sheet";
import type { BenchState, Turn } from "../../bench/state";
import { say } from "../../display";
import { count as countRange, plain } from "../../lib/figures";
import { MainBar } from "./MainBar";
import type { Session } from "./session";
import { givenNames } from "./words";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly next: number | null;
  readonly onChosen?: () => void;
}

/** Which screw comes next; the plan's order is offered, any other can be taken. */
export function ChooseScrew({ session, state, next, onChosen }: Props): ComponentChild {
  const { points, unit } = session.sheet;
  const keep = givenNames(session.sheet);
  const go = (point: number): void => {
    session.write({ kind: "at_screw", point });
    onChosen?.();
  };
  const offered = next === null ? undefined : points[next];
  return (
    <section class="ask">
      <ol class="screws">
        {points.map((point, place) => (
          <li key={place}>
            <button type="button" class="tap screw" onClick={() => go(place)} aria-current={place === next ? "step" : undefined}>
              <span class="screw-name">
                {place + 1} {say(point.at, keep)}
              </span>
              <span>
                {say(screwWords(point), keep)} · {turnWords(state.turns[place], unit.name)}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {offered?.posture ? <p>{say(offered.posture, keep)}</p> : null}
      {offered?.note ? <p>{say(offered.note, keep)}</p> : null}
      {next !== null && offered ? (
        <div class="floor">
          <MainBar
            title={say(`At the ${offered.at}`, keep)}
            words={`${screwWords(offered)} on, then the tube`}
            onPress={() => go(next)}
          />
        </div>
      ) : null}
    </section>
  );
}

export function screwWords({ hex_mm: hex }: SheetPoint): string {
  return hex === null ? "ring spanner, size not known" : `${plain(hex)} mm ring spanner`;
}

function turnWords(turn: Turn | undefined, unit: string): string {
  if (turn === undefined) return "";
  if (turn.is_shut) return turn.is_done ? "shut, done" : `shut: ${turn.reason ?? "not done"}`;
  const total = `${countRange(turn.total_count)} ${unit}s`;
  return turn.count > 0 ? `${turn.count} of ${total}` : total;
}
