// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The draft of a circuit, remembered with every change and always in the units shown now. */
import { useEffect, useState } from "preact/hooks";

import { measures, scale } from "../../display";
import { keepLeverDraft, recallLeverDraft, type LeverDraft } from "../../drafts";
import { inUnits, newDraft } from "./reading";

export function useDraft(machine: string, circuit: string): readonly [LeverDraft, (draft: LeverDraft) => void] {
  const [kept, setKept] = useState(() => recallLeverDraft(machine, circuit) ?? newDraft(scale.value, measures.value));
  const draft = inUnits(kept, scale.value, measures.value);
  const put = (next: LeverDraft): void => {
    setKept(next);
    keepLeverDraft(machine, circuit, next);
  };
  useEffect(() => {
    if (draft !== kept) put(draft);
  }, [draft.scale, draft.measures]);
  return [draft, put];
}
