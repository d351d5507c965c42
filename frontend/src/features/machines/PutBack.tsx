// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { importFile } from "../../api/machines";
import type { Failure } from "../../lib/request";
import { lastRemoved } from "../../removed";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Notice } from "../../ui/Notice";

/** After a removal: the way back. */
export function PutBack({ onBack }: { readonly onBack: () => void }): ComponentChild {
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);
  const removed = lastRemoved.value;
  if (removed === null) return null;

  const putBack = async (): Promise<void> => {
    setBusy(true);
    const answer = await importFile(removed.text);
    setBusy(false);
    if (!answer.ok) {
      setFailure(answer.reason);
      return;
    }
    lastRemoved.value = null;
    onBack();
  };

  return (
    <>
      <Notice kind="done" title={`${removed.name} was removed`}>
        <p class="row">
          <Button busy={isBusy} onClick={() => void putBack()}>
            Put {removed.name} back
          </Button>
          <Button onClick={() => (lastRemoved.value = null)}>Leave it removed</Button>
        </p>
      </Notice>
      {failure ? <ErrorNotice failure={failure} kept="Its file is still here; try again." /> : null}
    </>
  );
}
