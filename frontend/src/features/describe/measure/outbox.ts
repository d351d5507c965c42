// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Answers on their way to the server. None is lost: what it did not take stays here. */
import { useEffect, useRef, useState } from "preact/hooks";

import { changeMachine, getMachine, type Change, type MachineDetail } from "../../../api/machines";
import { answer } from "../../../api/shapes";
import { isConflict, isGone, type Failure } from "../../../lib/request";
import { listOf, orNull, record, text } from "../../../lib/validate";
import { useKept } from "../session";

const changes = listOf(record({ key: text, value: orNull(answer) }));
const TRY_AGAIN_MS = 3000;

/** "unsent" is with us because nobody answered; the others are what the server said. */
export type Standing =
  | { readonly kind: "clear" }
  | { readonly kind: "unsent" }
  | { readonly kind: "conflict" }
  | { readonly kind: "gone" }
  | { readonly kind: "refused"; readonly failure: Failure };

const CLEAR: Standing = { kind: "clear" };

export interface Outbox {
  readonly waiting: readonly Change[];
  readonly standing: Standing;
  readonly isSending: boolean;
  /** Take these answers and send all that wait; says how things stand then. */
  readonly send: (more: readonly Change[]) => Promise<Standing>;
  /** Read the machine anew and send what waits on top of it. */
  readonly sendOnTop: () => Promise<Standing>;
  /** Let go of what waits. */
  readonly drop: () => void;
}

/** Later answers to a question take the place of earlier ones. */
export function joined(waiting: readonly Change[], more: readonly Change[]): readonly Change[] {
  const replaced = new Set(more.map((change) => change.key));
  return [...waiting.filter((change) => !replaced.has(change.key)), ...more];
}

export function useOutbox(machine: MachineDetail, onSaved: (machine: MachineDetail) => void): Outbox {
  const [waiting, setWaiting] = useKept<readonly Change[]>(`answers for ${machine.id}`, changes, []);
  const [standing, setStanding] = useState<Standing>(CLEAR);
  const [isSending, setSending] = useState(false);
  const revision = useRef(machine.revision);
  revision.current = Math.max(revision.current, machine.revision);

  const stand = (next: Standing): Standing => {
    setStanding(next);
    return next;
  };
  const deliver = async (all: readonly Change[]): Promise<Standing> => {
    setWaiting(all);
    if (all.length === 0) return stand(CLEAR);
    setSending(true);
    const answered = await changeMachine(machine.id, revision.current, all);
    setSending(false);
    if (!answered.ok) return stand(standingAfter(answered.reason));
    revision.current = answered.value.revision;
    setWaiting([]);
    onSaved(answered.value);
    return stand(CLEAR);
  };
  const send = (more: readonly Change[]): Promise<Standing> => deliver(joined(waiting, more));
  const sendOnTop = async (): Promise<Standing> => {
    const latest = await getMachine(machine.id);
    if (!latest.ok) return stand(standingAfter(latest.reason));
    revision.current = latest.value.revision;
    return deliver(waiting);
  };
  const drop = (): void => {
    setWaiting([]);
    setStanding(CLEAR);
  };

  const latestSend = useRef(send);
  latestSend.current = send;
  const isLeftOver = waiting.length > 0 && standing.kind === "clear" && !isSending;
  useEffect(() => {
    // Answers from before a reload go out as soon as the page stands.
    if (isLeftOver) void latestSend.current([]);
  }, [isLeftOver]);
  useEffect(() => {
    if (standing.kind !== "unsent") return;
    const again = (): void => void latestSend.current([]);
    const timer = setInterval(again, TRY_AGAIN_MS);
    window.addEventListener("focus", again);
    return () => {
      clearInterval(timer);
      window.removeEventListener("focus", again);
    };
  }, [standing.kind]);

  return { waiting, standing, isSending, send, sendOnTop, drop };
}

function standingAfter(failure: Failure): Standing {
  if (failure.kind === "unreachable") return { kind: "unsent" };
  if (isConflict(failure)) return { kind: "conflict" };
  if (isGone(failure) && failure.kind === "refused" && failure.error === "unknown-machine") return { kind: "gone" };
  return { kind: "refused", failure };
}
