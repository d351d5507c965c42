// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { importFile } from "../../api/machines";
import type { Failure } from "../../lib/request";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { FileText } from "../../ui/FileText";
import { Screen } from "../../ui/Screen";

export interface FaultyFile {
  readonly name: string;
  readonly text: string;
  readonly failure: Failure;
}

interface Props {
  readonly file: FaultyFile;
  readonly onLeave: () => void;
}

/** A file that was not taken in: all that is wrong with it, and the place to put it right. */
export function MendFile({ file, onLeave }: Props): ComponentChild {
  const [text, setText] = useState(file.text);
  const [failure, setFailure] = useState(file.failure);
  const [isBusy, setBusy] = useState(false);

  const bringIn = async (): Promise<void> => {
    setBusy(true);
    const answer = await importFile(text);
    setBusy(false);
    if (answer.ok) location.hash = to.machine(answer.value.id);
    else setFailure(answer.reason);
  };

  const problems = failure.kind === "refused" ? failure.problems : [];
  return (
    <Screen
      title={`${file.name} was not brought in`}
      lead="Put it right here and bring it in, or leave it and choose another. The file on your disk stays as it is."
    >
      {problems.length === 0 ? <ErrorNotice failure={failure} /> : null}
      <FileText label={`What stands in ${file.name}`} value={text} problems={problems} onInput={setText} />
      <p class="row">
        <Button kind="do" busy={isBusy} onClick={() => void bringIn()}>
          Bring it in
        </Button>
        <Button onClick={onLeave}>Leave it</Button>
      </p>
    </Screen>
  );
}
