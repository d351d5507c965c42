// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Scene } from "../../api/circuits";
import type { Fill, FlushPlan } from "../../api/plan";
import { bandAmount, say, unit } from "../../display";
import { bandRange, count, times } from "../../lib/figures";
import { benchFacts } from "./Bench";
import { cautionsOf, FIRST_AUTHORITY, shortened } from "../../lib/cautions";
import { Drawing } from "./Drawing";
import { asSentence, givenNames, headlineOf, NO_DRAWING, spanner, wayWords } from "./sentence";
import "./sheet.css";

interface Props {
  readonly plan: FlushPlan;
  /** Null where the circuit is no longer as it was when the plan was made. */
  readonly scene: Scene | null;
}

/** One page to take to the bench: boxes to tick, room for figures. */
export function Sheet({ plan, scene }: Props): ComponentChild {
  const keep = givenNames(plan);
  const { figure, band, sentence } = headlineOf(plan, scene ?? NO_DRAWING);
  return (
    <article class="sheet">
      <p class="sheet-lead">{say(asSentence(wayWords(plan)))}</p>
      {plan.findings.map((finding) => (
        <p class="sheet-finding" key={finding}>
          <strong>Look at this first:</strong> {say(asSentence(finding), keep)}
        </p>
      ))}
      <p class="sheet-headline">
        <strong>{figure}</strong> {band ? `(${band}) ` : ""}
        {say(sentence, keep)}
      </p>
      {/* On a narrow screen it scrolls within itself, which must be possible by keyboard. */}
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
      <div class="table-scroll" tabIndex={0} role="group" aria-label="Table">
        {plan.fill ? <FillRows plan={plan} fill={plan.fill} /> : <SheetRows plan={plan} />}
      </div>
      <div class={scene ? "sheet-halves" : "sheet-whole"}>
        {scene ? <Drawing plan={plan} scene={scene} /> : null}
        <div class="sheet-half">
          <dl class="facts">
            {benchFacts(plan).map(({ name, words }) => (
              <div key={name}>
                <dt>{say(name)}</dt>
                <dd>{say(words, keep)}</dd>
              </div>
            ))}
          </dl>
          <h2>{say(`Each time: ${plan.technique}`)}</h2>
          <ol class="steps sheet-small">
            {plan.technique_steps.map((step) => (
              <li key={step}>{say(step)}</li>
            ))}
          </ol>
        </div>
      </div>
      {plan.beyond.length > 0 ? (
        <>
          <h2>Beyond this: stop</h2>
          <ul class="sheet-cautions sheet-small">
            {plan.beyond.map((words) => (
              <li key={words}>{say(words, keep)}</li>
            ))}
          </ul>
        </>
      ) : null}
      <h2>Cautions</h2>
      <ul class="sheet-cautions sheet-small">
        {cautionsOf(plan.cautions).map(({ topic, words }) => (
          <li key={topic + words}>
            {topic ? <strong>{say(topic, keep)}: </strong> : null}
            {say(shortened(words), keep)}
          </li>
        ))}
      </ul>
      <p class="sheet-small">
        <strong>{say(FIRST_AUTHORITY)}</strong>
      </p>
      <p class="sheet-signed">
        <span>Done on</span>
        <span>by</span>
        <span>new fluid, bottle opened on</span>
      </p>
    </article>
  );
}

/** The screws with a box to tick and room for what was really used. */
function SheetRows({ plan }: { plan: FlushPlan }): ComponentChild {
  return (
    <table class="sheet-rows">
      <caption class="only-heard">Screw by screw, with room for what was used</caption>
      <thead>
        <tr>
          <th scope="col">Done</th>
          <th scope="col">Screw</th>
          <th scope="col">{say("Spanner")}</th>
          <th scope="col">Through it</th>
          <th scope="col">Strokes</th>
          <th scope="col">Top-ups</th>
          <th scope="col">Minutes</th>
          <th scope="col">{`Used: ${unit("ml")}, strokes`}</th>
        </tr>
      </thead>
      <tbody>
        {plan.pistons_home_first ? <HomeRow plan={plan} /> : null}
        {plan.points.map((point, place) => (
          <tr key={place}>
            <td>
              <span class="tick-box" role="img" aria-label="box to tick" />
            </td>
            <th scope="row">
              {place + 1} {point.at}
              {[point.posture, point.note].map((aside) =>
                aside ? (
                  <span class="sheet-aside" key={aside}>
                    {say(aside, givenNames(plan))}
                  </span>
                ) : null,
              )}
            </th>
            <td>{spanner(point.hex_mm)}</td>
            <td>{bandAmount(point.volume_ml, "ml")}</td>
            <td>{point.strokes ? count(point.strokes) : "–"}</td>
            <td>{times(point.topups)}</td>
            <td>{bandRange(point.minutes)}</td>
            <td class="room">
              <span class="only-heard">to fill in</span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The steps of a fill with a box to tick, and when to leave off. */
function FillRows({ plan, fill }: { plan: FlushPlan; fill: Fill }): ComponentChild {
  const keep = givenNames(plan);
  return (
    <table class="sheet-rows sheet-fill">
      <caption class="only-heard">Step by step, with room for what was used</caption>
      <thead>
        <tr>
          <th scope="col">Done</th>
          <th scope="col">Step</th>
          <th scope="col">Takes</th>
          <th scope="col">Strokes</th>
          <th scope="col">{`Used: ${unit("ml")}, strokes`}</th>
        </tr>
      </thead>
      <tbody>
        {fill.steps.map((step, place) => (
          <tr key={step.id}>
            <td>
              <span class="tick-box" role="img" aria-label="box to tick" />
            </td>
            <th scope="row">
              {place + 1} {step.at}
              {[step.words, step.see, step.stop].map((words) => (
                <span class="sheet-aside" key={words}>
                  {say(words, keep)}
                </span>
              ))}
            </th>
            <td>{bandAmount(step.volume_ml, "ml")}</td>
            <td>{step.strokes ? count(step.strokes) : "–"}</td>
            <td class="room">
              <span class="only-heard">to fill in</span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function HomeRow({ plan }: { plan: FlushPlan }): ComponentChild {
  const places = plan.pistons_home.map((offer) => offer.at).join(", ");
  const ways = [...new Set(plan.pistons_home.map((offer) => asSentence(offer.how)))].join(" ");
  return (
    <tr>
      <td>
        <span class="tick-box" role="img" aria-label="box to tick" />
      </td>
      <th scope="row" colSpan={7}>
        Pistons home first: {places}
        <span class="sheet-aside">{say(ways, givenNames(plan))}</span>
      </th>
    </tr>
  );
}
