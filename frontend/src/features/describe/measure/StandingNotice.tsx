// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Question } from "../../../api/circuits";
import type { Change } from "../../../api/machines";
import { say } from "../../../display";
import { to } from "../../../routes";
import { Button } from "../../../ui/Button";
import { ErrorNotice } from "../../../ui/ErrorNotice";
import { LinkButton } from "../../../ui/LinkButton";
import { Notice } from "../../../ui/Notice";
import { givenInWords, givenNames, ownerOf, titleOf } from "../../../answering/naming";
import type { Outbox } from "./outbox";

interface Props {
  readonly outbox: Outbox;
  /** As the server has them now. */
  readonly questions: readonly Question[];
  readonly onPutMine: () => void;
  readonly onLeaveTheirs: () => void;
}

/** Why an answer is not saved yet, and what can be done. */
export function StandingNotice({ outbox, questions, onPutMine, onLeaveTheirs }: Props): ComponentChild {
  const { standing, waiting } = outbox;
  switch (standing.kind) {
    case "clear":
      return null;
    case "unsent":
      return (
        <Notice kind="stop" title="Not saved yet: the server does not answer">
          <p>
            {waiting.length === 1
              ? "One answer is kept in this tab; it goes out by itself"
              : `${waiting.length} answers are kept in this tab; they go out by themselves`}{" "}
            once the server is back. You can go on. If it is stopped, start it again with: python3 run.py
          </p>
          <Button onClick={() => void outbox.send([])}>Send now</Button>
        </Notice>
      );
    case "conflict":
      return (
        <Notice kind="stop" title="Somebody changed this machine first">
          <p>Perhaps you did, in another tab. Nothing is overwritten, and your answer is kept here.</p>
          <ul class="both-sides">
            {waiting.map((change) => (
              <li key={change.key}>{bothSides(change, questions)}</li>
            ))}
          </ul>
          <div class="row">
            <Button kind="do" busy={outbox.isSending} onClick={onPutMine}>
              Put mine in
            </Button>
            <Button onClick={onLeaveTheirs}>Leave what is there</Button>
          </div>
        </Notice>
      );
    case "gone":
      return (
        <Notice kind="stop" title="This machine is not here any more">
          <p>It was removed, perhaps in another tab, so your last answer has no place to go.</p>
          <LinkButton href={to.machines()}>To the machines</LinkButton>
        </Notice>
      );
    case "refused":
      return (
        <>
          <ErrorNotice failure={standing.failure} kept="Your answer is not saved. Change it, or leave it out." />
          <div class="row">
            <Button onClick={outbox.drop}>Leave it out</Button>
          </div>
        </>
      );
  }
}

function bothSides(change: Change, questions: readonly Question[]): ComponentChild {
  const there = questions.find((one) => one.key === change.key);
  if (!there) return ownerOf(change.key);
  return (
    <>
      <span>{say(titleOf(there), givenNames(there))}</span>
      <span>
        <strong>Yours:</strong> {givenInWords({ ...there, given: change.value })}. <strong>There now:</strong>{" "}
        {givenInWords(there)}.
      </span>
    </>
  );
}
