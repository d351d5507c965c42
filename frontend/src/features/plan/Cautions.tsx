// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { FlushPlan } from "../../api/plan";
import { say } from "../../display";
import { CautionList } from "../../ui/Cautions";
import { Unfold } from "../../ui/Unfold";
import { cautionsOf, FIRST_AUTHORITY, type Caution } from "../../lib/cautions";
import { givenNames } from "./sentence";

const ALWAYS_SEEN = 3;

/** The cautions: the first in full, of the others at least what they are about. */
export function Cautions({ plan }: { readonly plan: FlushPlan }): ComponentChild {
  const all = cautionsOf(plan.cautions);
  const [first, more] = [all.slice(0, ALWAYS_SEEN), all.slice(ALWAYS_SEEN)];
  const keep = givenNames(plan);
  return (
    <section class="plan-part">
      <h2>Cautions</h2>
      <CautionList cautions={first} keep={keep} />
      {more.length > 0 ? (
        <Unfold summary={`And ${more.length} more: ${topics(more)}`}>
          <CautionList cautions={more} keep={keep} />
        </Unfold>
      ) : null}
      <p>
        <strong>{say(FIRST_AUTHORITY)}</strong>
      </p>
    </section>
  );
}

function topics(cautions: readonly Caution[]): string {
  return cautions.flatMap(({ topic }) => (topic ? [say(topic)] : [])).join(" · ");
}
