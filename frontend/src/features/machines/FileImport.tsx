// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId, useState } from "preact/hooks";

import { importFile } from "../../api/machines";
import type { Failure, Problem } from "../../lib/request";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { FileText } from "../../ui/FileText";
import { Notice } from "../../ui/Notice";

/** The server takes no more. */
const MOST_BYTES = 1_000_000;

interface Chosen {
  readonly name: string;
  readonly text: string;
}

/** Bring a machine in from a circuit file; a faulty one can be put right on the spot. */
export function FileImport(): ComponentChild {
  const id = useId();
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);

  const bringIn = async (file: Chosen): Promise<void> => {
    setBusy(true);
    const answer = await importFile(file.text);
    setBusy(false);
    if (answer.ok) location.hash = to.machine(answer.value.id);
    else setFailure(answer.reason);
  };

  const choose = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setFailure(null);
    setChosen(null);
    const content = await readText(file);
    setRefused(content.ok ? null : content.why);
    if (!content.ok) return;
    const next = { name: file.name, text: content.text };
    setChosen(next);
    await bringIn(next);
  };

  const problems = problemsOf(failure);
  return (
    <section class="import">
      <p class="row">
        <span class="import-words">Somebody gave you a circuit file?</span>
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
      {failure && problems.length === 0 ? <ErrorNotice failure={failure} /> : null}
      {chosen && failure ? (
        <>
          <FileText
            label={`What stands in ${chosen.name}`}
            value={chosen.text}
            problems={problems}
            onInput={(text) => setChosen({ ...chosen, text })}
          />
          <p class="row">
            <Button kind="do" busy={isBusy} onClick={() => void bringIn(chosen)}>
              Bring it in
            </Button>
            <Button
              onClick={() => {
                setChosen(null);
                setFailure(null);
              }}
            >
              Leave it
            </Button>
          </p>
        </>
      ) : null}
    </section>
  );
}

function problemsOf(failure: Failure | null): readonly Problem[] {
  return failure?.kind === "refused" ? failure.problems : [];
}

type Content =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly why: string };

/** Read a chosen file, or say in a sentence why it cannot be a circuit file. */
export async function readText(file: File): Promise<Content> {
  if (file.size > MOST_BYTES) {
    const megabytes = (file.size / 1_000_000).toFixed(1);
    return {
      ok: false,
      why: `${file.name} has ${megabytes} MB; a circuit file has a few thousand characters, and at most 1 MB is taken. Choose the file that ends in .toml.`,
    };
  }
  try {
    // Strict: a picture or an office file must not come in as a row of question marks.
    const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
    return { ok: true, text: decoder.decode(await file.arrayBuffer()) };
  } catch {
    return {
      ok: false,
      why: `${file.name} is not plain text in UTF-8. Choose the file that ends in .toml, or save it again as plain text.`,
    };
  }
}
