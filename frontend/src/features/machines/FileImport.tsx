// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId, useState } from "preact/hooks";

import { importFile } from "../../api/machines";
import { to } from "../../routes";
import { Notice } from "../../ui/Notice";
import type { FaultyFile } from "./MendFile";
import { readText } from "./readText";

interface Props {
  /** The file was read but not taken in. */
  readonly onFaulty: (file: FaultyFile) => void;
}

/** Bring a machine in from a circuit file. */
export function FileImport({ onFaulty }: Props): ComponentChild {
  const id = useId();
  const [refused, setRefused] = useState<string | null>(null);

  const choose = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
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
        <label class="button button-plain import-button" for={id}>
          Bring in a circuit file
          <input
            id={id}
            type="file"
            accept=".toml,text/plain"
            onChange={(event) => {
              const input = event.currentTarget;
              // Emptied, so that the same file can be chosen again once it was put right.
              void choose(input.files?.[0]).finally(() => (input.value = ""));
            }}
          />
        </label>
      </p>
      {refused ? (
        <Notice kind="stop" title="That file was not brought in">
          <p>{refused}</p>
        </Notice>
      ) : null}
    </section>
  );
}
