// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LevelReport } from "../../api/looks";
import { amount, bandAmount, dayShown, say } from "../../display";
import { plain } from "../../lib/figures";
import { capital } from "../../lib/words";
import { Grounds } from "../../ui/Grounds";
import { Notice } from "../../ui/Notice";
import { Plot } from "./Plot";
import { OF_A_CLUTCH, told } from "./told";

/** Less than this over MAX makes a wet cover, not a flood (judgement). */
const WORTH_A_STOP_ML = 1;

/** What the looks say: the verdict, where the fluid went, what comes next, what it rests on. */
export function Result({ report }: { report: LevelReport }): ComponentChild {
  const keep = [report.bike, report.circuit];
  return (
    <div class="level-told">
      <Verdict report={report} />
      {report.is_clutch ? (
        <p>{say(OF_A_CLUTCH)}</p>
      ) : null}
      <Stretches report={report} />
      <Next report={report} />
      <Narrow report={report} />
      <Grounds {...report} keep={keep} />
    </div>
  );
}

function Verdict({ report }: { report: LevelReport }): ComponentChild {
  const keep = [report.bike, report.circuit];
  const isStop = report.findings.length > 0;
  const [headline = "", ...rest] = report.says.map((text) => told(text, keep));
  return (
    <Notice kind={isStop ? "stop" : report.verdict === "wear explains it" ? "done" : "note"} title={headline}>
      {rest.map((text) => (
        <p key={text}>{text}</p>
      ))}
      {report.findings.map((text) => (
        <p key={text}>
          <strong>{capital(told(text, keep))}.</strong>
        </p>
      ))}
    </Notice>
  );
}

function Stretches({ report }: { report: LevelReport }): ComponentChild {
  if (report.between.length === 0) return null;
  return (
    <section class="level-part" aria-labelledby="level-between">
      <h2 id="level-between">Where the fluid went</h2>
      <Plot report={report} />
      <p class="soft">From look to look, 5 to 95 %.</p>
      <ul class="level-list" aria-label="From look to look">
        {report.between.map((one) => (
          <li key={one.end}>
            <strong>Until {dayShown(one.end)}</strong>
            <dl class="level-balance">
              <dt>Level fell</dt>
              <dd>{bandAmount(one.fell_ml, "ml")}</dd>
              <dt>Poured in</dt>
              <dd>{amount(one.topped_up_ml, one.topped_up_ml, "ml")}</dd>
              <dt>{report.is_clutch ? "Plates drew" : "Pads drew"}</dt>
              <dd>{bandAmount(one.drawn_ml, "ml")}</dd>
              <dt>Not explained</dt>
              <dd>{bandAmount(one.left_ml, "ml")}</dd>
            </dl>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Next({ report }: { report: LevelReport }): ComponentChild {
  const { new_pads: pads, min_on: min } = report;
  const day = (on: string | null): string => (on === null ? "more than thirty years on" : dayShown(on));
  return (
    <section class="level-part" aria-labelledby="level-next">
      <h2 id="level-next">What comes next</h2>
      {pads === null ? null : pads.take_out_first_ml > 0 ? (
        <Notice
          kind={pads.take_out_first_ml >= WORTH_A_STOP_ML ? "stop" : "note"}
          title={`Before new pads: take ${amount(pads.take_out_first_ml, pads.take_out_first_ml, "ml")} out first`}
        >
          <p>
            The pistons push {bandAmount(pads.rise_ml, "ml")} back up; the reservoir could overflow onto paint. Take it out
            before a piston goes back.
          </p>
        </Notice>
      ) : (
        <p>Before new pads: the pistons push {bandAmount(pads.rise_ml, "ml")} back up, and it stays below MAX.</p>
      )}
      <dl class="level-facts">
        <div>
          <dt>Above MIN now</dt>
          <dd>{bandAmount(report.above_min_ml, "ml")}</dd>
        </div>
        <div>
          <dt>Fill to now</dt>
          <dd>{bandAmount(report.fill_above_min_ml, "ml")} above MIN</dd>
        </div>
        {min === null ? null : (
          <div>
            <dt>At MIN by wear alone</dt>
            <dd>{min.p05 === min.p95 ? day(min.p50) : `${day(min.p05)} to ${day(min.p95)}`}</dd>
          </div>
        )}
        {report.pads_gone_first === null ? null : (
          <div>
            <dt>Pads gone before that</dt>
            <dd>{plain(Math.round(report.pads_gone_first * 100))} % likely</dd>
          </div>
        )}
      </dl>
    </section>
  );
}

/** What to measure with, without the words of the command line. */
function atHand(measure: string): string {
  return measure.replace(/ \(--\w+\)| and give --\w+| and a column \w+/, "");
}

function Narrow({ report }: { report: LevelReport }): ComponentChild {
  const { would_see_ml: least } = report;
  return (
    <section class="level-part" aria-labelledby="level-cannot">
      <h2 id="level-cannot">What these looks cannot tell</h2>
      <p>
        {least === null
          ? "One look has nothing to compare with: look again in a few weeks."
          : `A loss of less than about ${amount(least, least, "ml")} could hide in them. Where it went, they do not say.`}
      </p>
      {report.narrow.length === 0 ? null : (
        <ul class="level-list">
          {report.narrow.map((one) => (
            <li key={one.words}>
              {say(capital(one.words))}: {say(atHand(one.measure))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
