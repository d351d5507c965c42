// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { say } from "../../display";
import { isGone, type Failure } from "../../lib/request";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { LinkButton } from "../../ui/LinkButton";
import { Notice } from "../../ui/Notice";
import { asSentence } from "./sentence";
import type { WishChange } from "../../api/wish";

interface Props {
  readonly failure: Failure;
  readonly id: string;
  readonly onAgain: () => void;
  /** Takes back what was asked for last; null where no plan came before. */
  readonly onBack: (() => void) | null;
  readonly onChange: (change: WishChange) => void;
}

/** Why there is no plan for what was asked, and what to choose instead. */
export function Trouble(props: Props): ComponentChild {
  const place = useRef<HTMLDivElement>(null);
  const { failure } = props;
  // What was chosen may stand far below: whoever chose it must see the answer.
  useEffect(() => place.current?.scrollIntoView?.({ block: "nearest" }), [failure.kind]);
  return (
    <div class="plan-trouble" ref={place}>
      {failure.kind === "refused" && failure.problems.length === 0 ? (
        <Refusal {...props} failure={failure} />
      ) : (
        <ErrorNotice
          failure={failure}
          onAgain={props.onAgain}
          {...(props.onBack ? { kept: "What you chose is kept; below is the last plan that came." } : {})}
        />
      )}
    </div>
  );
}

type Refused = Extract<Failure, { kind: "refused" }>;

function Refusal({ failure, id, onBack, onChange }: Props & { failure: Refused }): ComponentChild {
  const { title, advice, usual, change } = REFUSALS[failure.error] ?? OTHERWISE;
  return (
    <Notice kind="stop" title={title}>
      <p>{say(asSentence(failure.message))}</p>
      {isGone(failure) ? (
        <LinkButton href={failure.error === "unknown-machine" ? to.machines() : to.machine(id)}>
          {failure.error === "unknown-machine" ? "To the machines" : "To the machine"}
        </LinkButton>
      ) : onBack ? (
        <>
          <p>What stands below is still the plan before. {advice}</p>
          <Button onClick={onBack}>Back to the plan before</Button>
        </>
      ) : (
        <Button onClick={() => onChange(change)}>{usual}</Button>
      )}
    </Notice>
  );
}

interface Way {
  readonly title: string;
  /** What to choose instead. */
  readonly advice: string;
  /** What leads to a plan at once, where there was none yet. */
  readonly usual: string;
  readonly change: WishChange;
}

const OTHERWISE: Way = {
  title: "That cannot be planned",
  advice: "",
  usual: "Plan it the usual way",
  change: {
    work: undefined,
    method: undefined,
    technique: undefined,
    target: undefined,
    pistons_home: undefined,
    fluid: undefined,
    workshop_degc: undefined,
    seed: undefined,
  },
};
const REFUSALS: Readonly<Record<string, Way>> = {
  "method-refused": {
    title: "This method is refused here",
    advice: "Choose another under “What moves the fluid”.",
    usual: "Plan it by lever",
    change: { method: undefined, technique: undefined },
  },
  "fluid-refused": {
    title: "This fluid is refused here",
    advice: "Choose one that the machine's maker allows.",
    usual: "Plan it with the fluid the maker asks for",
    change: { fluid: undefined },
  },
  "order-needed": {
    title: "The manual's order is needed",
    advice: "It goes into the machine's file, or the work to a workshop.",
    usual: "Plan a flush",
    change: { work: undefined },
  },
  "unknown-machine": { ...OTHERWISE, title: "This machine is not here any more" },
};
