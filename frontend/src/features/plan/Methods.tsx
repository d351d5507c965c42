// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import type { FlushPlan, MethodTime } from "../../api/plan";
import type { Method } from "../../api/shapes";
import { say } from "../../display";
import { bandRange } from "../../lib/figures";
import { Table } from "../../ui/Table";
import { asSentence } from "./sentence";
import type { WishChange } from "../../api/wish";

export const METHOD_WORDS: Readonly<Record<Method, string>> = {
  lever: "Lever",
  vacuum: "Vacuum at the screw",
  gravity: "Gravity alone",
  pressure: "Pressure at the reservoir",
  reverse: "Reverse, from the screw up",
};

interface Props {
  readonly plan: FlushPlan;
  readonly chosen: Method;
  readonly onChange: (change: WishChange) => void;
}

/** Every method side by side; the one that is taken changes the plan. */
export function Methods({ plan, chosen, onChange }: Props): ComponentChild {
  const name = useId();
  return (
    <div class="offer">
      <h3 id={`${name}-head`}>What moves the fluid</h3>
      <div role="radiogroup" aria-labelledby={`${name}-head`}>
        <Table
          caption="The same millilitres by every method"
          hideCaption
          columns={[{ head: "Method" }, { head: "Minutes in all", isFigure: true }]}
          rows={plan.methods.map((one) => [
            <MethodRadio
              key="method"
              one={one}
              name={name}
              isChosen={one.method === chosen}
              onTake={() => onChange({ method: one.method, technique: undefined })}
            />,
            one.allowed ? bandRange(one.minutes) : <span key="minutes" class="refused">refused</span>,
          ])}
        />
      </div>
    </div>
  );
}

function MethodRadio(props: {
  one: MethodTime;
  name: string;
  isChosen: boolean;
  onTake: () => void;
}): ComponentChild {
  const { one, name, isChosen, onTake } = props;
  // A refused method is told like the others but cannot be taken.
  const Row = one.allowed ? "label" : "span";
  return (
    <Row class="method">
      {one.allowed ? (
        <input type="radio" name={name} checked={isChosen} onChange={onTake} />
      ) : (
        <span class="refused">
          <span class="mark mark-stop" aria-hidden="true" />
        </span>
      )}
      <span class="two-lines">
        <span>{METHOD_WORDS[one.method]}</span>
        <span class="two-lines-second">{say(one.technique)}</span>
        {one.allowed ? null : <span class="two-lines-second">{say(asSentence(one.reason))}</span>}
      </span>
    </Row>
  );
}
