// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan, PistonsHome as Offer } from "../../api/plan";
import { bandAmount, say } from "../../display";
import { bandRange, inPerCent } from "../../lib/figures";
import { Switch } from "../../ui/Switch";
import { asSentence, givenNames } from "./sentence";
import type { WishChange } from "../../api/wish";

interface Props {
  readonly plan: FlushPlan;
  readonly isOn: boolean;
  readonly onChange: (change: WishChange) => void;
}

/** Pistons pushed home before the flush: what it saves, caliper by caliper, and how. */
export function PistonsHome({ plan, isOn, onChange }: Props): ComponentChild {
  if (plan.pistons_home.length === 0) return null;
  const ways = [...new Set(plan.pistons_home.map((offer) => offer.how))];
  return (
    <div class="offer">
      <h3>Pistons home first</h3>
      <ul class="savings">
        {plan.pistons_home.map((offer) => (
          <li key={offer.at}>{savingWords(offer)}</li>
        ))}
      </ul>
      <Switch
        label="Push the pistons home before the flush"
        on={isOn}
        onChange={(on) => onChange({ pistons_home: on })}
      />
      {ways.map((how) => (
        <p class="offer-how" key={how}>
          {say(asSentence(how), givenNames(plan))}
        </p>
      ))}
    </div>
  );
}

function savingWords(offer: Offer): ComponentChild {
  const less = bandRange(inPerCent(offer.left_old_less));
  return (
    <>
      {offer.done ? "Saved" : "Saves"} <strong>{bandAmount(offer.saves_ml, "ml")}</strong> at the {offer.at},
      and {less} points less stay old.
    </>
  );
}
