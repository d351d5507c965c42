// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { getMachine, replaceText, type MachineDetail } from "../../api/machines";
import { dropDraft, keepDraft, recallDraft, type Draft } from "../../drafts";
import { isConflict, type Failure } from "../../lib/request";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { FileText } from "../../ui/FileText";
import { Notice } from "../../ui/Notice";
import { Unfold } from "../../ui/Unfold";
import { Conflict } from "./Conflict";

interface Props {
  readonly machine: MachineDetail;
  readonly onSaved: (machine: MachineDetail) => void;
}

/** The circuit file as text, to change by hand. What is not saved stays in this browser. */
export function MachineFile({ machine, onSaved }: Props): ComponentChild {
  const [draft, setDraft] = useState<Draft | null>(() => recallDraft(machine.id));
  const [failure, setFailure] = useState<Failure | null>(null);
  const [theirs, setTheirs] = useState<MachineDetail | null>(null);
  const [isBusy, setBusy] = useState(false);
  const [isSaved, setSaved] = useState(false);
  // While the page was away from an open draft, somebody may have saved.
  const [wasOpen] = useState(draft !== null);

  const drop = (): void => {
    dropDraft(machine.id);
    setDraft(null);
    setFailure(null);
    setTheirs(null);
  };

  const write = (text: string): void => {
    const next = { read_revision: draft?.read_revision ?? machine.revision, text };
    setSaved(false);
    keepDraft(machine.id, next);
    setDraft(next);
  };

  const save = async ({ read_revision: revision, text }: Draft): Promise<void> => {
    setBusy(true);
    setFailure(null);
    const answer = await replaceText(machine.id, revision, text);
    if (answer.ok) {
      drop();
      setSaved(true);
      onSaved(answer.value);
    } else if (isConflict(answer.reason)) {
      const now = await getMachine(machine.id);
      if (now.ok) setTheirs(now.value);
      else setFailure(now.reason);
    } else {
      setFailure(answer.reason);
    }
    setBusy(false);
  };

  const takeTheirs = (): void => {
    if (theirs !== null) onSaved(theirs);
    drop();
  };

  const problems = failure?.kind === "refused" ? failure.problems : [];
  return (
    <Unfold summary="Change the file by hand" open={wasOpen}>
      <p>
        Write a number for what you know exactly, {"{ low = 12, high = 14 }"} for what you know roughly, and leave out
        what you do not know.
      </p>
      {wasOpen && draft !== null ? (
        <Notice kind="note">
          <p>What you wrote here last time was not saved yet. It is still there.</p>
        </Notice>
      ) : null}
      {isSaved ? <Notice kind="done" title="Saved" /> : null}
      {theirs !== null && draft !== null ? (
        <Conflict
          theirs={theirs.text}
          yours={draft.text}
          isBusy={isBusy}
          onKeepYours={() => {
            setTheirs(null);
            void save({ read_revision: theirs.revision, text: draft.text });
          }}
          onTakeTheirs={takeTheirs}
        />
      ) : null}
      {failure && problems.length === 0 ? (
        <ErrorNotice failure={failure} kept="What you wrote is kept in this browser until it is saved." />
      ) : null}
      <FileText
        label={`The file of ${machine.name}`}
        value={draft?.text ?? machine.text}
        onInput={write}
        problems={problems}
      />
      {theirs === null ? (
        <p class="row">
          <Button
            kind="do"
            busy={isBusy}
            disabled={draft === null || draft.text === machine.text}
            onClick={() => {
              if (draft !== null) void save(draft);
            }}
          >
            Save the file
          </Button>
          <Button disabled={draft === null} onClick={drop}>
            Undo what I wrote
          </Button>
        </p>
      ) : null}
    </Unfold>
  );
}
