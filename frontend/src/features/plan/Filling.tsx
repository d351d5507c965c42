// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Fill, FillStep, FlushPlan, ReverseFill } from "../../api/plan";
import { bandAmount, say } from "../../display";
import { count, counted } from "../../lib/figures";
import { guardAmount } from "./amounts";
import { Part } from "./Part";
import { asSentence, givenNames } from "./sentence";

interface Props {
  readonly plan: FlushPlan;
  readonly fill: Fill;
}

/** How a dry circuit is filled: step by step, from below, and its cylinder on the bench. */
export function Filling({ plan, fill }: Props): ComponentChild {
  return (
    <>
      <section class="plan-part">
        <h2>Step by step</h2>
        <ol class="fill-steps">
          {fill.steps.map((step, place) => (
            <Step key={step.id} plan={plan} step={step} number={place + 1} />
          ))}
        </ol>
      </section>
      <Part title="A dry master cylinder" gist={`It is primed on the bench, in ${counted(String(fill.prime.length), "step")}.`}>
        <p class="soft">It is primed on the bench, before it is fitted.</p>
        <ol class="steps">
          {fill.prime.map((words) => (
            <li key={words}>{say(words)}</li>
          ))}
        </ol>
      </Part>
      {fill.reverse.length > 0 ? (
        <Part title="Filling from below" gist={say(fromBelowGist(fill.reverse), givenNames(plan))}>
          <dl class="facts">
            {fill.reverse.map((one) => (
              <div key={one.at}>
                <dt>{one.at}</dt>
                <dd>{say(fromBelowWords(one), givenNames(plan))}</dd>
              </div>
            ))}
          </dl>
        </Part>
      ) : null}
    </>
  );
}

function Step({ plan, step, number }: { plan: FlushPlan; step: FillStep; number: number }): ComponentChild {
  const keep = givenNames(plan);
  return (
    <li class="fill-step">
      <h3 class="fill-step-head">
        <span class="step-number">{number}</span>
        <span>{step.at}</span>
        <span class="fill-step-amount">{amountOf(step)}</span>
      </h3>
      <dl class="fill-step-words">
        <dt>Do</dt>
        <dd>
          {say(step.words, keep)}
          {asidesOf(plan, step).map((aside) => (
            <span class="step-aside" key={aside}>
              {" "}
              {say(asSentence(aside), keep)}
            </span>
          ))}
        </dd>
        <dt>You should see</dt>
        <dd>{say(step.see, keep)}</dd>
        <dt>Stop if</dt>
        <dd>{say(withoutIf(step.stop), keep)}</dd>
      </dl>
    </li>
  );
}

/** What one step takes: "16 ml, 13–45 strokes". */
export function amountOf({ volume_ml, strokes }: FillStep): string {
  const ml = bandAmount(volume_ml, "ml");
  return strokes === null ? ml : `${ml}, ${counted(count(strokes), "stroke")}`;
}

/** What holds at a screw by itself: how the machine stands, and what is special there. */
function asidesOf(plan: FlushPlan, step: FillStep): readonly string[] {
  const point = plan.points.find(({ at }) => step.id === `screw ${at}`);
  return [point?.posture, point?.note].filter((aside) => typeof aside === "string");
}

/** The words after "Stop if", for a sentence that starts with "If". */
function withoutIf(words: string): string {
  return words.replace(/^If /, "");
}

function fromBelowGist(ways: readonly ReverseFill[]): string {
  const open = ways.filter((one) => one.allowed);
  if (open.length === 0) return asSentence(`Not here: ${[...new Set(ways.map((one) => one.reason))].join("; ")}`);
  return `${open.map((one) => `${one.at}: ${guardOf(one)} may go in`).join(", ")}, then the reservoir runs over.`;
}

function fromBelowWords(one: ReverseFill): string {
  if (!one.allowed) return asSentence(`not here: ${one.reason}`);
  return (
    `${bandAmount(one.volume_ml, "ml")} to the reservoir. Draw it down first; ${guardOf(one)} may go in before ` +
    "it runs over, so draw it off again after each of those."
  );
}

function guardOf({ draw_off_after_ml: ml }: ReverseFill): string {
  return guardAmount({ p05: ml, p50: ml, p95: ml });
}
