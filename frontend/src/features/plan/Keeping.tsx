// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import type { PlanWish } from "../../api/circuits";
import { keepPlan } from "../../api/kept";
import type { Failure } from "../../lib/request";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { LinkButton } from "../../ui/LinkButton";
import { Notice } from "../../ui/Notice";
import { queryOf } from "../../api/wish";

interface Props {
  readonly id: string;
  readonly circuit: string;
  readonly wish: PlanWish;
  /** A plan that is shown but no longer what is asked for cannot be kept. */
  readonly isStale: boolean;
}

interface Kept {
  readonly kind: "kept";
  readonly plan: string;
}

/** Take the plan along: on paper, or kept with the machine. */
export function Keeping({ id, circuit, wish, isStale }: Props): ComponentChild {
  const [standing, setStanding] = useState<"open" | "sending" | Kept | Failure>("open");
  const asked = JSON.stringify(wish);
  useEffect(() => setStanding("open"), [asked]);
  const keep = async (): Promise<void> => {
    setStanding("sending");
    const answer = await keepPlan(id, circuit, wish);
    setStanding(answer.ok ? { kind: "kept", plan: answer.value.id } : answer.reason);
  };
  return (
    <section class="plan-part not-printed">
      <h2>Take it along</h2>
      <div class="row">
        <LinkButton href={to.start(id, circuit) + queryOf(wish)}>Start at the bench</LinkButton>
        <LinkButton kind="do" href={to.print(id, circuit) + queryOf(wish)}>
          One page to print
        </LinkButton>
        <Button onClick={() => void keep()} busy={standing === "sending"} disabled={isStale}>
          Keep this plan
        </Button>
      </div>
      {typeof standing === "string" ? null : standing.kind === "kept" ? (
        <Notice kind="done" title="Kept">
          <p>
            <a href={to.kept(id, standing.plan)}>Open the kept plan</a>; it stands on{" "}
            <a href={to.machine(id)}>the machine's page</a> too, as it is now.
          </p>
        </Notice>
      ) : (
        <ErrorNotice failure={standing} onAgain={() => void keep()} />
      )}
    </section>
  );
}
