// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { queryOf } from "../../api/wish";
import { say } from "../../display";
import { isGone, type Failure } from "../../lib/request";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { LinkButton } from "../../ui/LinkButton";
import { Notice } from "../../ui/Notice";
import { Screen } from "../../ui/Screen";
import { Wait } from "../../ui/Wait";
import { Bench } from "./Bench";
import { Beyond } from "./Beyond";
import { Cautions } from "./Cautions";
import { ComesOut } from "./ComesOut";
import { Drawing } from "./Drawing";
import { Filling } from "./Filling";
import { Findings } from "./Findings";
import { Grounds } from "./Grounds";
import { Headline } from "./Headline";
import { NO_DRAWING, wayWords, workWords } from "./sentence";
import { Sheet } from "./Sheet";
import { Steps } from "./Steps";
import { useKept, type Kept } from "./useKept";
import "./plan.css";

interface Props {
  readonly id: string;
  readonly plan: string;
}

/** A plan as it was kept; nothing in it is worked out again. */
export function KeptPlan({ id, plan: planId }: Props): ComponentChild {
  const { value, failure, again } = useKept(id, planId);
  if (value === null || value.entry === null) {
    const isMissing = value !== null || (failure !== null && isGone(failure));
    return (
      <Screen title={isMissing ? "This plan is not kept here" : "A plan you kept"} back={{ href: to.machine(id), name: "The machine" }}>
        {isMissing ? <Missing id={id} failure={failure} /> : null}
        {failure && !isMissing ? <ErrorNotice failure={failure} onAgain={again} /> : null}
        {failure === null && value === null ? <Wait doing="Looking for the plan" /> : null}
      </Screen>
    );
  }
  return <Found kept={value} />;
}

function Missing({ id, failure }: { id: string; failure: Failure | null }): ComponentChild {
  const isMachineGone = failure?.kind === "refused" && failure.error === "unknown-machine";
  return (
    <Notice kind="note">
      <p>It was removed with its machine, or the address is cut short.</p>
      <LinkButton href={isMachineGone ? to.machines() : to.machine(id)}>
        {isMachineGone ? "To the machines" : "To the machine"}
      </LinkButton>
    </Notice>
  );
}

function Found({ kept }: { kept: Kept }): ComponentChild {
  const { machine, plan, scene } = kept;
  const isStillThere = machine.circuits.some((one) => one.name === plan.circuit);
  return (
    <Screen
      title={`${plan.bike}: ${workWords(plan.work, plan.circuit)}`}
      lead={`As it was kept: ${say(wayWords(plan))}`}
      back={{ href: to.machine(machine.id), name: machine.name }}
    >
      <div class="kept-plan not-printed">
        {scene ? null : (
          <Notice kind="note" title="The machine was changed since">
            <p>The figures are those of the day it was kept. The circuit may have another shape now, so it is not drawn.</p>
          </Notice>
        )}
        <div class="row">
          <Button kind="do" onClick={() => print()}>
            Print on one page
          </Button>
          {isStillThere ? <LinkButton href={to.plan(machine.id, plan.circuit) + queryOf(plan.fill ? { work: "fill" } : {})}>Plan it anew</LinkButton> : null}
        </div>
        <Findings plan={plan} />
        <div class={scene ? "plan" : "plan plan-undrawn"}>
          <div class="plan-sight">
            <Headline now={{ plan, scene: scene ?? NO_DRAWING }} before={null} doing={null} />
            {scene ? <Drawing plan={plan} scene={scene} /> : null}
          </div>
          <div class="plan-column">
            <Beyond plan={plan} />
            {plan.fill ? <Filling plan={plan} fill={plan.fill} /> : <Steps plan={plan} />}
            <Bench plan={plan} />
            {plan.fill ? null : <ComesOut plan={plan} />}
            <Grounds plan={plan} scene={scene ?? NO_DRAWING} />
            <Cautions plan={plan} />
          </div>
        </div>
      </div>
      <div class="only-printed">
        <Sheet plan={plan} scene={scene} />
      </div>
    </Screen>
  );
}
