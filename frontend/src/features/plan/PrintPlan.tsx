// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { capital } from "../../lib/words";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { LinkButton } from "../../ui/LinkButton";
import { Screen } from "../../ui/Screen";
import { Wait } from "../../ui/Wait";
import { Sheet } from "./Sheet";
import { workWords } from "./sentence";
import { Trouble } from "./Trouble";
import { usePlan } from "./usePlan";
import { useWish } from "./useWish";
import { queryOf } from "../../api/wish";
import "./plan.css";

interface Props {
  readonly id: string;
  readonly circuit: string;
}

/** The plan as one page to take to the bench: boxes to tick, room for figures. */
export function PrintPlan({ id, circuit }: Props): ComponentChild {
  const { wish, change } = useWish();
  const { value, failure, isAsking, again } = usePlan(id, circuit, wish, 0);
  const work = wish.work ?? "flush";
  const isWhole = value !== null && failure === null;
  return (
    <Screen title={value ? `${value.plan.bike}: ${workWords(value.plan.work, circuit)}` : capital(workWords(work, circuit))}>
      <div class="row not-printed">
        <Button kind="do" onClick={() => print()} disabled={!isWhole}>
          Print
        </Button>
        <LinkButton href={to.plan(id, circuit) + queryOf(wish)}>Back to the plan</LinkButton>
      </div>
      {failure ? (
        <Trouble
          failure={failure}
          id={id}
          onAgain={again}
          onBack={null}
          onChange={change}
        />
      ) : null}
      {value === null && isAsking && !failure ? <Wait doing={`Working out the ${work} of the ${circuit} circuit`} /> : null}
      {isWhole ? <Sheet plan={value.plan} scene={value.scene} /> : null}
    </Screen>
  );
}
