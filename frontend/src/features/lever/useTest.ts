// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** One lever test under way: its draft, what is wrong with it, what it says. */
import { useState } from "preact/hooks";

import {
  getLever,
  listLevers,
  type KeptLever,
  type LeverList,
  type SetKind,
} from "../../api/levers";
import { measures, scale } from "../../display";
import { dropLeverDraft, type LeverDraft } from "../../drafts";
import { useResource, type Resource } from "../../ui/resource";
import { BLANK, newDraft, rowsIn } from "./reading";
import { useDraft } from "./useDraft";
import { CLEAR, workedOut, type Obstacle, type Told } from "./workedOut";

export interface Test extends Obstacle {
  readonly list: Resource<LeverList>;
  readonly draft: LeverDraft;
  readonly set: number;
  readonly isReading: boolean;
  readonly isBusy: boolean;
  readonly said: Told | null;
  readonly keptId: string | null;
  readonly old: KeptLever | null;
  /** Readings that "start afresh" put away; nothing is asked before, so they can come back. */
  readonly putAway: LeverDraft | null;
  readonly start: () => void;
  readonly choose: (set: number) => void;
  readonly change: (part: Partial<LeverDraft>) => void;
  readonly workOut: () => void;
  readonly back: () => void;
  readonly readKind: (kind: SetKind) => void;
  readonly nameIt: (id: string) => void;
  readonly kept: (id: string) => void;
  readonly afresh: () => void;
  readonly takeBack: () => void;
  readonly showOld: (id: string) => void;
  readonly leaveOld: () => void;
}

export function useTest(machine: string, circuit: string): Test {
  const list = useResource((signal) => listLevers(machine, circuit, signal), [machine, circuit]);
  const [draft, setDraft] = useDraft(machine, circuit);
  const [set, setSet] = useState(0);
  const [isReading, setReading] = useState(() => draft.sets.some((one) => rowsIn(one) > 0));
  const [obstacle, setObstacle] = useState(CLEAR);
  const [isBusy, setBusy] = useState(false);
  const [said, setSaid] = useState<Told | null>(null);
  const [keptId, setKeptId] = useState<string | null>(null);
  const [putAway, setPutAway] = useState<LeverDraft | null>(null);
  const [old, setOld] = useState<KeptLever | null>(null);

  const change = (part: Partial<LeverDraft>): void => {
    // other readings are another test
    setDraft({ ...draft, ...part, id: null });
    setObstacle(CLEAR);
  };
  const workOut = async (): Promise<void> => {
    setBusy(true);
    const came = await workedOut(machine, circuit, draft);
    setBusy(false);
    setObstacle(came.ok ? CLEAR : came.reason);
    if (came.ok) {
      setSaid(came.value);
      window.scrollTo(0, 0);
    } else setSet(came.reason.faults[0]?.set ?? set);
  };
  const showOld = async (id: string): Promise<void> => {
    const answer = await getLever(machine, circuit, id);
    if (answer.ok) {
      setOld(answer.value);
      window.scrollTo(0, 0);
    } else setObstacle({ ...CLEAR, failure: answer.reason });
  };
  return {
    ...obstacle,
    list,
    draft,
    set,
    isReading,
    isBusy,
    said,
    keptId,
    old,
    putAway,
    change,
    start: () => setReading(true),
    choose: setSet,
    workOut: () => void workOut(),
    back: () => setSaid(null),
    readKind: (kind) => {
      const blank = draft.sets.findIndex((one) => one.kind === kind && rowsIn(one) === 0);
      if (blank < 0) change({ sets: [...draft.sets, { kind, held: "", rows: [BLANK] }] });
      setSet(blank < 0 ? draft.sets.length : blank);
      setSaid(null);
    },
    nameIt: (id) => setDraft({ ...draft, id }),
    kept: (id) => {
      dropLeverDraft(machine, circuit);
      setKeptId(id);
      list.again();
      window.scrollTo(0, 0);
    },
    afresh: () => {
      setPutAway(keptId === null ? draft : null);
      setDraft(newDraft(scale.value, measures.value));
      dropLeverDraft(machine, circuit);
      setObstacle(CLEAR);
      setSaid(null);
      setKeptId(null);
      setSet(0);
      setReading(false);
    },
    takeBack: () => {
      if (putAway !== null) setDraft(putAway);
      setPutAway(null);
      setReading(true);
    },
    showOld: (id) => void showOld(id),
    leaveOld: () => setOld(null),
  };
}
