// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { TubeAnswers } from "../../bench/event";
import { tubeVerdict } from "../../bench/tube";
import { say } from "../../display";
import { MainBar, Tap } from "./MainBar";
import type { Session } from "./session";
import { restWords, verdictWords } from "./words";

type Name = keyof TubeAnswers;

const QUESTIONS: readonly { readonly name: Name; readonly deed: string; readonly asked: string; readonly suction: boolean }[] = [
  {
    name: "shut_bubbles_go_on",
    deed: "Leave the suction on and shut the screw.",
    asked: "Do bubbles go on in the tube?",
    suction: true,
  },
  {
    name: "gravity_bubbles",
    deed: "Suction off. Open the screw and let it run by gravity, or with one slow stroke.",
    asked: "Do bubbles come?",
    suction: false,
  },
  {
    name: "after_rest_bubbles",
    deed: "Shut the screw and let it stand for {rest}, then open it again by gravity.",
    asked: "Do bubbles still come?",
    suction: false,
  },
];

const NOTHING: TubeAnswers = { shut_bubbles_go_on: null, gravity_bubbles: null, after_rest_bubbles: null };

interface Props {
  readonly session: Session;
  readonly point: number;
  readonly onDone: () => void;
}

/** Three short tries that tell where bubbles in the tube come from. */
export function TubeTest({ session, point, onDone }: Props): ComponentChild {
  const hasSuction = session.sheet.method === "vacuum";
  const asked = QUESTIONS.filter((one) => hasSuction || !one.suction);
  const [answers, setAnswers] = useState(NOTHING);
  const [place, setPlace] = useState(0);
  const verdict = tubeVerdict(answers);
  const question = asked[place];
  const answer = (value: boolean | null): void => {
    if (question === undefined) return;
    setAnswers({ ...answers, [question.name]: value });
    setPlace(place + 1);
  };
  if (question !== undefined) {
    return (
      <section class="ask">
        <h2>Where do the bubbles come from?</h2>
        <p class="ask-large">{question.deed.replace("{rest}", restWords(session.sheet))}</p>
        <p class="ask-large">
          <strong>{question.asked}</strong>
        </p>
        <div class="floor">
          <div class="taps">
            <Tap onPress={() => answer(null)}>Not tried</Tap>
            <Tap onPress={onDone}>Leave the test</Tap>
          </div>
          <div class="two-bars">
            <button type="button" class="bar" onClick={() => answer(true)}>
              <span class="bar-title">Yes, bubbles</span>
            </button>
            <button type="button" class="bar" onClick={() => answer(false)}>
              <span class="bar-title">No bubbles</span>
            </button>
          </div>
        </div>
      </section>
    );
  }
  const said = verdictWords(session.sheet, verdict);
  return (
    <section class="ask">
      <h2>{say(said.means)}</h2>
      <p>{say(said.advice)}</p>
      <p>
        <strong>What this test cannot tell:</strong> {say(said.open)}
      </p>
      <div class="floor">
        <div class="taps">
          <Tap onPress={onDone}>Throw the test away</Tap>
        </div>
        <MainBar
          title="Keep this verdict"
          words={verdict}
          onPress={() => {
            session.write({ kind: "tube_test", point, answers });
            onDone();
          }}
        />
      </div>
    </section>
  );
}
