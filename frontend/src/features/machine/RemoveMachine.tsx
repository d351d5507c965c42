// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { listKeptPlans } from "../../api/kept";
import { removeMachine, type MachineDetail } from "../../api/machines";
import { dropDraft } from "../../drafts";
import { isConflict, type Failure } from "../../lib/request";
import { lastRemoved } from "../../removed";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Notice } from "../../ui/Notice";

interface Props {
  readonly machine: MachineDetail;
  readonly onMeanwhile: () => void;
}

/** Two steps to take a machine away; after that it can still be put back from the list. */
export function RemoveMachine({ machine, onMeanwhile }: Props): ComponentChild {
  const [keptPlans, setKeptPlans] = useState<number | null>(null);
  const [isAsked, setAsked] = useState(false);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);

  const ask = async (): Promise<void> => {
    setAsked(true);
    setFailure(null);
    const kept = await listKeptPlans(machine.id);
    setKeptPlans(kept.ok ? kept.value.plans.length : null);
  };

  const remove = async (): Promise<void> => {
    setBusy(true);
    const answer = await removeMachine(machine.id, machine.revision);
    setBusy(false);
    if (answer.ok) {
      dropDraft(machine.id);
      lastRemoved.value = { name: machine.name, text: machine.text };
      location.hash = to.machines();
      return;
    }
    setAsked(false);
    setFailure(answer.reason);
    if (isConflict(answer.reason)) onMeanwhile();
  };

  return (
    <div class="remove">
      {failure ? <ErrorNotice failure={failure} /> : null}
      {isAsked ? (
        <Notice kind="stop" title={`Remove ${machine.name}?`}>
          <p>
            It leaves the list. You can put it back from there.{" "}
            {keptPlans ? `The ${keptPlans === 1 ? "plan" : `${keptPlans} plans`} you kept with it cannot be put back.` : ""}
          </p>
          <p class="row">
            <Button kind="stop" busy={isBusy} onClick={() => void remove()}>
              Remove {machine.name} now
            </Button>
            <Button onClick={() => setAsked(false)}>Keep it</Button>
          </p>
        </Notice>
      ) : (
        <p>
          <Button kind="stop" onClick={() => void ask()}>
            Remove this machine
          </Button>
        </p>
      )}
    </div>
  );
}
