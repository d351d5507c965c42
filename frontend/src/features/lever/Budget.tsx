// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LeverResult, TravelShare } from "../../api/levers";
import { unit } from "../../display";
import { capital } from "../../lib/words";
import { Table } from "../../ui/Table";
import { figures } from "./figures";
import { told } from "./told";

/** Where the travel goes: a bar cut into numbered parts, and the same as a table. */
export function Budget({ result }: { readonly result: LeverResult }): ComponentChild {
  const { budget } = result;
  const whole = budget.reduce((sum, one) => sum + one.travel_mm.p50, 0);
  const when = result.left_ml === null ? "" : " before the work";
  return (
    <section class="lever-part" aria-labelledby="lever-budget">
      <h2 id="lever-budget">Where the travel goes</h2>
      <p class="soft">{told(`An unpumped lever${when}, 50 mm in from its end, pulled with ${result.at_n} N.`)}</p>
      <div class="lever-bar" aria-hidden="true">
        {budget.map((one, place) => (
          <span
            key={one.part}
            class={`lever-cut lever-cut-${one.part}`}
            style={{ flexGrow: Math.max(one.travel_mm.p50 / whole, 0) }}
          >
            <span class="lever-cut-number">{place + 1}</span>
          </span>
        ))}
      </div>
      <Table
        caption="Parts of the travel"
        hideCaption
        columns={[{ head: "Part" }, { head: unit("mm"), isFigure: true }]}
        rows={budget.map((one, place) => [partWords(one, place), figures(one.travel_mm, "mm")])}
      />
    </section>
  );
}

function partWords(one: TravelShare, place: number): ComponentChild {
  return (
    <span class="lever-part-name">
      <span class={`lever-swatch lever-cut-${one.part}`} aria-hidden="true" />
      {`${place + 1} ${capital(told(one.words))}`}
    </span>
  );
}
