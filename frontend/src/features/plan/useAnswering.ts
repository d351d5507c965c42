// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";

import { changeMachine, getMachine, type Change, type MachineDetail } from "../../api/machines";
import { isConflict, type Failure } from "../../lib/request";

/** How far the keeping of an answer has come. */
export type Standing =
  | { readonly kind: "open" }
  | { readonly kind: "sending" }
  | { readonly kind: "conflict" }
  | { readonly kind: "failed"; readonly failure: Failure };

export interface Answering {
  readonly standing: Standing;
  /** Keep changes upon the machine as it was read; true when they are kept. */
  readonly keep: (changes: readonly Change[]) => Promise<boolean>;
  /** Read the machine again, then keep the changes upon that. */
  readonly keepOnTop: (changes: readonly Change[]) => Promise<boolean>;
}

/** Keep answers on a machine; what was typed stays with the form until they are kept. */
export function useAnswering(machine: MachineDetail, onKept: (machine: MachineDetail) => void): Answering {
  const [standing, setStanding] = useState<Standing>({ kind: "open" });
  const send = async (revision: number, changes: readonly Change[]): Promise<boolean> => {
    setStanding({ kind: "sending" });
    const answer = await changeMachine(machine.id, revision, changes);
    setStanding(answer.ok ? { kind: "open" } : standingAfter(answer.reason));
    if (answer.ok) onKept(answer.value);
    return answer.ok;
  };
  const keepOnTop = async (changes: readonly Change[]): Promise<boolean> => {
    setStanding({ kind: "sending" });
    const latest = await getMachine(machine.id);
    if (latest.ok) return send(latest.value.revision, changes);
    setStanding(standingAfter(latest.reason));
    return false;
  };
  return { standing, keep: (changes) => send(machine.revision, changes), keepOnTop };
}

function standingAfter(failure: Failure): Standing {
  return isConflict(failure) ? { kind: "conflict" } : { kind: "failed", failure };
}
