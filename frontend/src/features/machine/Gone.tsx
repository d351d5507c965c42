// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { importFile } from "../../api/machines";
import { dropDraft, recallDraft } from "../../drafts";
import type { Failure } from "../../lib/request";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { LinkButton } from "../../ui/LinkButton";
import { Screen } from "../../ui/Screen";
import { Unfold } from "../../ui/Unfold";

/** A link to a machine that was removed; what was still being written for it is not lost. */
export function Gone({ id }: { readonly id: string }): ComponentChild {
  const [failure, setFailure] = useState<Failure | null>(null);
  const draft = recallDraft(id);

  const bringIn = async (text: string): Promise<void> => {
    const answer = await importFile(text);
    if (!answer.ok) {
      setFailure(answer.reason);
      return;
    }
    dropDraft(id);
    location.hash = to.machine(answer.value.id);
  };

  return (
    <Screen title="This machine is not here any more" back={{ href: to.machines(), name: "Machines" }}>
      <p>Somebody removed it, or the link belongs to another computer.</p>
      {draft ? (
        <>
          <p>You were still writing its file, and that is not lost.</p>
          <Unfold summary="See what you wrote">
            <pre class="written">{draft.text}</pre>
          </Unfold>
          {failure ? <ErrorNotice failure={failure} /> : null}
          <p class="row">
            <Button kind="do" onClick={() => void bringIn(draft.text)}>
              Bring it in as a new machine
            </Button>
          </p>
        </>
      ) : null}
      <p class="row">
        <LinkButton href={to.machines()}>To the machines</LinkButton>
        <LinkButton href={to.newMachine()}>Describe a new one</LinkButton>
      </p>
    </Screen>
  );
}
