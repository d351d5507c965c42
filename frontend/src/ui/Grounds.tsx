// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { amount, say } from "../display";
import { capital } from "../lib/words";
import { CautionsInFull } from "./Cautions";
import { Table } from "./Table";
import { Unfold } from "./Unfold";

interface Assumed {
  readonly words: string;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly basis: string;
}

interface Props {
  readonly cautions: readonly string[];
  readonly assumed: readonly Assumed[];
  readonly sources: readonly string[];
  /** Names that people gave. */
  readonly keep: readonly string[];
}

/** What a judgement warns of, and what it rests on. */
export function Grounds({ cautions, assumed, sources, keep }: Props): ComponentChild {
  return (
    <div>
      <CautionsInFull texts={cautions} keep={keep} />
      <Unfold summary={assumedTitle(assumed.length)}>
        <Table
          caption="Assumed quantities"
          hideCaption
          columns={[{ head: "What" }, { head: "Usually", isFigure: true }, { head: "Rests on" }]}
          rows={assumed.map((one) => [say(capital(one.words), keep), amount(one.low, one.high, one.unit), one.basis])}
        />
      </Unfold>
      <SourcesFold sources={sources} />
    </div>
  );
}

export function SourcesFold({ sources }: Pick<Props, "sources">): ComponentChild {
  return (
    <Unfold summary="Sources">
      <p>{sources.join(", ")}</p>
      <p class="soft">The keys are those of the references in the documentation.</p>
    </Unfold>
  );
}

export function assumedTitle(count: number): string {
  if (count === 0) return "Nothing had to be assumed";
  return count === 1 ? "1 quantity assumed" : `${count} quantities assumed`;
}
