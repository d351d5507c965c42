// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { importFile } from "../../api/machines";
import { to } from "../../routes";
import { FileButton } from "../../ui/FileButton";
import { Notice } from "../../ui/Notice";
import type { FaultyFile } from "./MendFile";
import { readText } from "./readText";

interface Props {
  /** The file was read but not taken in. */
  readonly onFaulty: (file: FaultyFile) => void;
}

/** Bring a machine in from a circuit file. */
export function FileImport({ onFaulty }: Props): ComponentChild {
  const [refused, setRefused] = useState<string | null>(null);

  const choose = async (file: File): Promise<void> => {
    const content = await readText(file);
    setRefused(content.ok ? null : content.reason);
    if (!content.ok) return;
    const answer = await importFile(content.value);
    if (answer.ok) location.hash = to.machine(answer.value.id);
    else onFaulty({ name: file.name, text: content.value, failure: answer.reason });
  };

  return (
    <section class="import" aria-label="Circuit files">
      <p class="row">
        <span>Somebody gave you a circuit file?</span>
        <FileButton accept=".toml,text/plain" onChosen={choose}>
          Bring in a circuit file
        </FileButton>
      </p>
      {refused ? (
        <Notice kind="stop" title="That file was not brought in">
          <p>{refused}</p>
        </Notice>
      ) : null}
    </section>
  );
}
