// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { putDemoBack, type MachineSummary } from "../../api/machines";
import type { Failure } from "../../lib/request";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Notice } from "../../ui/Notice";

interface Props {
  readonly machines: readonly MachineSummary[];
  readonly onBack: (machines: readonly MachineSummary[]) => void;
}

/** Puts the demo workshop back; where that would undo changes, it says so first. */
export function DemoBack({ machines, onBack }: Props): ComponentChild {
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);
  const [isSure, setSure] = useState(false);
  const [isDone, setDone] = useState(false);
  const changed = machines.filter((machine) => machine.revision > 1).map((machine) => machine.name);

  const putBack = async (): Promise<void> => {
    setBusy(true);
    const answer = await putDemoBack();
    setBusy(false);
    setSure(false);
    setFailure(answer.ok ? null : answer.reason);
    setDone(answer.ok);
    if (answer.ok) onBack(answer.value.machines);
  };

  return (
    <div class="demo-back">
      {isSure ? (
        <Notice kind="stop" title="That undoes changes">
          <p>What you changed in {changed.join(" and ")} goes back to how it came.</p>
          <p class="row">
            <Button kind="stop" busy={isBusy} onClick={() => void putBack()}>
              Put it back all the same
            </Button>
            <Button onClick={() => setSure(false)}>Leave it</Button>
          </p>
        </Notice>
      ) : (
        <Button busy={isBusy} onClick={() => (changed.length > 0 ? setSure(true) : void putBack())}>
          Put the demo workshop back
        </Button>
      )}
      {isDone ? <Notice kind="done" title="The demo workshop is as it came" /> : null}
      {failure ? <ErrorNotice failure={failure} /> : null}
    </div>
  );
}
