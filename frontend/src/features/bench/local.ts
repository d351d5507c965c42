// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** What is going on at this device beside the log: the set that runs, what was waved aside. */
import { useState } from "preact/hooks";

import type { Skipped } from "./step";

/** Something that takes the whole screen for a moment. */
export type Aside =
  | { readonly kind: "none" }
  | { readonly kind: "more" }
  | { readonly kind: "tube" }
  | { readonly kind: "cup" }
  | { readonly kind: "level" }
  | { readonly kind: "judge" }
  | { readonly kind: "screws" }
  | { readonly kind: "leave screw" }
  | { readonly kind: "done anyway" }
  | { readonly kind: "give up" }
  | { readonly kind: "note" }
  | { readonly kind: "override"; readonly gate: string };

export interface Local {
  readonly skipped: Skipped;
  readonly skip: (what: Exclude<keyof Skipped, "unit">, point: number) => void;
  readonly leaveUnit: () => void;
  readonly aside: Aside;
  readonly show: (aside: Aside) => void;
}

const NONE: Skipped = { samples: [], cups: [], more: [], unit: false };

export function useLocal(): Local {
  const [skipped, setSkipped] = useState<Skipped>(NONE);
  const [aside, show] = useState<Aside>({ kind: "none" });
  return {
    skipped,
    skip: (what, point) => setSkipped((before) => ({ ...before, [what]: [...before[what], point] })),
    leaveUnit: () => setSkipped((before) => ({ ...before, unit: true })),
    aside,
    show,
  };
}

export const NO_ASIDE: Aside = { kind: "none" };
