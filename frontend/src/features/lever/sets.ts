// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The kinds of set: what each is called, how it is read, what it is good for. */
import type { SetKind } from "../../api/levers";

/** A pull of one kind, or a hold at one force. */
export type Kind = SetKind | "hold" | "hold fast";

export interface SetWords {
  readonly name: string;
  readonly how: string;
  readonly tells: string;
}

export const SETS: Readonly<Record<Kind, SetWords>> = {
  first: {
    name: "First pull",
    how: "Leave the lever alone for a few minutes, then pull slowly and read as the force goes up, never back.",
    tells: "Where every test begins; alone it cannot tell air from clearance.",
  },
  pumped: {
    name: "Pumped",
    how: "Three quick pumps, hold the lever past its first 5 mm, then read upward; never let it back further than that.",
    tells: "Pumping takes up clearance, so what stays long is air.",
  },
  wedged: {
    name: "Wedged",
    how: "Push wedges of wood or plastic between pad backs and caliper, never at the disc, so that nothing has to close; then read like a first pull.",
    tells: "No clearance at all: the sharpest look at air.",
  },
  hold: {
    name: "Hold",
    how: "Pull slowly to about 100 N, keep the scale there, and read the travel every five or ten seconds for a minute.",
    tells: "Shows a lever that sinks; five readings over half a minute are the least.",
  },
  "hold fast": {
    name: "Quick hold",
    how: "Pull quickly to about 100 N, keep the scale there, and read the travel every five or ten seconds for a minute.",
    tells: "Beside a slow hold it parts a worn cup from a leak; five readings over half a minute are the least.",
  },
};

export function isHold(kind: Kind): boolean {
  return kind === "hold" || kind === "hold fast";
}

/** Good forces to stop at, in newtons: the low ones tell air from clearance. Judgement, as in the solver. */
export const GOOD_FORCES_N = [6, 8, 10, 12, 15, 20, 25, 30, 40, 60, 80, 100] as const;
