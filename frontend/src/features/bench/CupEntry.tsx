// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { BenchState } from "../../bench/state";
import { say } from "../../display";
import { bandRange, plain } from "../../lib/figures";
import { MainBar, Tap } from "./MainBar";
import type { Session } from "./session";
import { Stepper } from "./Stepper";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
  readonly point: number;
  readonly onDone: () => void;
  readonly onSkip: () => void;
}

/** What lies in the catch cup: one look corrects every countdown. */
export function CupEntry({ session, state, point, onDone, onSkip }: Props): ComponentChild {
  const turn = state.turns[point];
  const expected = turn === undefined ? 0 : Math.max(0, turn.out_ml.p50 - turn.sample_ml);
  const [ml, setMl] = useState(Math.round(expected));
  if (turn === undefined) return null;
  const name = session.sheet.unit.name;
  return (
    <section class="ask">
      <h2>How much is in the cup from this screw?</h2>
      <p>
        {say(
          `Shut the screw and look at the cup on a level place. Expected: ${bandRange(turn.out_ml)} ml after ${turn.count} ${name}s` +
            `${turn.sample_ml > 0 ? `, of it ${plain(turn.sample_ml)} ml in the small cup, which do not count here` : ""}.`,
        )}
      </p>
      <Stepper label="In the cup" value={ml} unit="ml" most={2000} steps={[1, 5]} onChange={setMl} />
      <p class="soft">
        That is {(ml + turn.sample_ml) / turn.count < 10 ? plain(Number(((ml + turn.sample_ml) / turn.count).toPrecision(2))) : Math.round((ml + turn.sample_ml) / turn.count)} ml
        a {name}. A tube that leaks air makes the cup read low, so it never makes the reservoir's countdown longer.
      </p>
      <div class="floor">
        <div class="taps">
          <Tap onPress={onSkip}>Not now</Tap>
        </div>
        <MainBar
          title={`${ml} ml in the cup`}
          words="corrects every countdown"
          onPress={() => {
            session.write({ kind: "caught", point, ml });
            onDone();
          }}
        />
      </div>
    </section>
  );
}
