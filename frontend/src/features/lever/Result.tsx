// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LeverResult, SetKind } from "../../api/levers";
import { middleAmount, shown, unit } from "../../display";
import { bandRange, plain, type Band } from "../../lib/figures";
import { capital } from "../../lib/words";
import { Button } from "../../ui/Button";
import { Figure } from "../../ui/Figure";
import { Grounds } from "../../ui/Grounds";
import { Notice } from "../../ui/Notice";
import { BeforeAfter } from "./BeforeAfter";
import { Budget } from "./Budget";
import { inShown } from "./figures";
import { SETS } from "./sets";
import { told } from "./told";

interface Props {
  readonly result: LeverResult;
  /** Read a further set; left out where the test is an old one. */
  readonly onRead?: (kind: SetKind) => void;
}

/** What the readings say, what they cannot tell, and what they stand on. */
export function Result({ result, onRead }: Props): ComponentChild {
  const keep = [result.bike, result.circuit];
  const list = (title: string, texts: readonly string[]): ComponentChild =>
    texts.length === 0 ? null : (
      <section class="lever-part">
        <h2>{title}</h2>
        <ul class="lever-list">
          {texts.map((text) => (
            <li key={text}>{told(text, keep)}</li>
          ))}
        </ul>
      </section>
    );
  return (
    <div class="lever-told">
      <Sinking result={result} />
      <Headline result={result} />
      <ul class="lever-list">
        {result.says.filter((text) => !isAbove(text)).map((text) => (
          <li key={text}>{told(text, keep)}</li>
        ))}
      </ul>
      <BeforeAfter result={result} />
      <Budget result={result} />
      {list("What these readings cannot tell", result.cannot_tell)}
      <Next result={result} {...(onRead ? { onRead } : {})} />
      <Grounds {...result} keep={keep} />
    </div>
  );
}

const STOP = "Stop work. ";

/** Told above the list already: a sinking lever, and the difference. */
function isAbove(text: string): boolean {
  return text.startsWith(STOP) || /ml of air left the brake|ml more air is in it/.test(text);
}

/** A lever that sinks stops the work before anything else is said. */
function Sinking({ result }: { result: LeverResult }): ComponentChild {
  const texts = result.says.filter((text) => text.startsWith(STOP));
  if (texts.length === 0) return null;
  return (
    <Notice kind="stop" title={told("Stop work: the lever sinks")}>
      {texts.map((text) => (
        <p key={text}>{told(text.slice(STOP.length))}</p>
      ))}
    </Notice>
  );
}

function Headline({ result }: { result: LeverResult }): ComponentChild {
  const { left_ml: left, air_ml: air } = result;
  if (left === null) return <Air band={air}>of air, as far as these readings tell.</Air>;
  const more = left.p95 < 0;
  const band = more ? { p05: -left.p95, p50: -left.p50, p95: -left.p05 } : left;
  const isSeen = left.p05 > 0 || more;
  return (
    <Air band={band}>
      {isSeen ? (more ? "more air is in it than before." : "of air left the brake.") : "of air left the brake: no difference these readings can show."}
    </Air>
  );
}

function Air({ band, children }: { band: Band; children: string }): ComponentChild {
  return (
    <Figure value={middleAmount(band, "ml")} band={bandRange(inShown(band, "ml")).replace("–", " to ")}>
      {children}
    </Figure>
  );
}

function Next({ result, onRead }: Props): ComponentChild {
  if (result.next_sets.length === 0) return null;
  const now = result.air_after_ml ?? result.air_ml;
  const width = (ml: number): string => `${plain(Number(shown(ml, "ml").toPrecision(2)))} ${unit("ml")}`;
  return (
    <section class="lever-part">
      <h2>What would tell more</h2>
      <p class="soft">The band of the air is {width(now.p95 - now.p05)} wide now.</p>
      <ol class="lever-next">
        {result.next_sets.map((one) => (
          <li key={one.kind}>
            <span>
              {capital(told(one.words))}: it would then be <strong>{width(one.air_width_ml)}</strong> wide.
            </span>
            {onRead ? <Button onClick={() => onRead(one.kind)}>Read: {SETS[one.kind].name}</Button> : null}
          </li>
        ))}
      </ol>
    </section>
  );
}
