// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useRef } from "preact/hooks";

import { bandMiddle, bandRange, inPerCent, type Band } from "../../../lib/figures";
import { Figure } from "../../../ui/Figure";

interface Props {
  /** The share that stays old, of the machine as last planned. */
  readonly leftOld: Band;
  readonly revision: number;
}

/** What the plan says so far, and what it said before the last answer. */
export function Headline({ leftOld, revision }: Props): ComponentChild {
  const before = useBefore(leftOld, revision);
  const now = inPerCent(leftOld);
  const was = before && bandRange(inPerCent(before));
  return (
    <div class="so-far" aria-live="polite">
      <Figure value={`${bandMiddle(now)} %`} band={bandRange(now)}>
        stays old after the flush
      </Figure>
      {was && was !== bandRange(now) ? <p class="soft">Before your last answer: {was} %</p> : null}
    </div>
  );
}

/** The band of the revision before; null until something was answered. */
function useBefore(band: Band, revision: number): Band | null {
  const seen = useRef({ band, revision, before: null as Band | null });
  if (seen.current.revision !== revision && seen.current.band !== band) {
    seen.current = { band, revision, before: seen.current.band };
  }
  return seen.current.before;
}
