// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The ABS unit is never emptied: what stays in it, and when cycling it is worth the trouble. */
import type { ComponentChild } from "preact";

import { passageOf } from "../../bench/marks";
import type { BenchState } from "../../bench/state";
import { bandAmount, say } from "../../display";
import type { Local } from "./local";
import { MainBar, Tap } from "./MainBar";
import type { Session } from "./session";
import { counts, givenNames, isCyclingWorthIt, unitLines } from "./words";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
}

/** What the work leaves in the unit, in figures, and what becomes of it. */
export function AbsWords({ session, state }: Props): ComponentChild {
  const { sheet } = session;
  if (!sheet.has_modulator) return null;
  return (
    <div class="abs">
      <UnitLeft {...{ session, state }} />
      {state.phase === "closed" || state.phase === "given up" ? null : state.cycled.length > 0 ? (
        <p>Cycled: {state.cycled.join(", ")}.</p>
      ) : (
        <div class="taps">
          {(["maker's tool", "workshop", "on the road"] as const).map((how) => (
            <Tap key={how} onPress={() => void session.write({ kind: "unit_cycled", how })}>
              Cycled: {how}
            </Tap>
          ))}
        </div>
      )}
    </div>
  );
}

function UnitLeft({ session, state }: Props): ComponentChild {
  const keep = givenNames(session.sheet);
  return (
    <>
      {unitLines(session.sheet).map((line) => (
        <p key={line}>{say(line, keep)}</p>
      ))}
      <p>{say(worthWords(session, state))}</p>
    </>
  );
}

function worthWords({ sheet }: Session, { work }: BenchState): string {
  if (work === "bleed") return "Air may have reached it: cycling with the maker's tool or at a workshop is worth it before it rolls.";
  const mixing = "Riding mixes it with the rest of the unit, more so whenever the ABS works; it does not leave by itself.";
  return isCyclingWorthIt(sheet)
    ? `${mixing} That is much: cycling with the maker's tool and a second pass are worth it.`
    : `${mixing} Without air in the circuit there is usually no need to cycle it.`;
}

/** Where and when the unit's fluid comes out once its valves have run. */
function Passages({ session, state }: Props): ComponentChild {
  const { sheet } = session;
  const lines = Object.keys(sheet.unswept).flatMap((unit) =>
    sheet.points.flatMap(({ at, strip }) => {
      const passage = passageOf(strip, unit);
      if (passage === null) return [];
      const strokes = Math.ceil(passage.p95 / state.unit_ml.mean);
      return [`${at}: ${bandAmount(passage, "ml")} after opening it, ${counts(sheet, strokes)} until it is past`];
    }),
  );
  return lines.length === 0 ? null : (
    <ul>
      {lines.map((line) => (
        <li key={line}>{say(line, givenNames(sheet))}</li>
      ))}
    </ul>
  );
}

interface StepProps extends Props {
  readonly local: Local;
}

/** All screws are shut: cycle the unit between two passes, or leave it. */
export function CycleUnit({ session, state, local }: StepProps): ComponentChild {
  return (
    <section class="ask">
      <h2>The ABS unit keeps some old fluid.</h2>
      <UnitLeft {...{ session, state }} />
      <div class="floor">
        <div class="taps">
          <Tap onPress={() => void session.write({ kind: "unit_cycled", how: "maker's tool" })}>
            Cycled with the maker's tool
          </Tap>
        </div>
        <MainBar title="Go on without cycling" words="it can be noted later, too" onPress={local.leaveUnit} />
      </div>
    </section>
  );
}

/** The unit was run: what was in it is on its way, and only a second pass takes it out. */
export function SecondPass({ session, state, local }: StepProps): ComponentChild {
  const first = session.sheet.points.findIndex(({ strip }) =>
    Object.keys(session.sheet.unswept).some((unit) => passageOf(strip, unit) !== null),
  );
  const point = Math.max(0, first);
  const begin = (): void => {
    session.sheet.points.forEach((_, place) => local.skip("more", place));
    local.leaveUnit();
    session.write({ kind: "at_screw", point });
  };
  return (
    <section class="ask">
      <h2>A second pass takes out what the valves let go.</h2>
      <Passages {...{ session, state }} />
      <div class="floor">
        <div class="taps">
          <Tap onPress={local.leaveUnit}>No second pass</Tap>
        </div>
        <MainBar
          title={say(`Second pass: ${session.sheet.points[point]?.at ?? ""}`, givenNames(session.sheet))}
          words="reservoir full, tube under fluid"
          onPress={begin}
        />
      </div>
    </section>
  );
}
