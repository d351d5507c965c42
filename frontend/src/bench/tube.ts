// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Whose bubbles are in the tube, by three tests; null is a test not made. */
import type { TubeAnswers } from "./event";

export type Verdict =
  | "past threads or tube joint"
  | "past threads and from the circuit"
  | "from the circuit"
  | "from the circuit or froth"
  | "froth from pumping"
  | "drawn by suction"
  | "cannot tell";

/** Bubbles that say nothing about the circuit. */
export const FROM_OUTSIDE: readonly Verdict[] = ["past threads or tube joint", "drawn by suction"];

export function tubeVerdict(answers: TubeAnswers): Verdict {
  const { shut_bubbles_go_on: shut, gravity_bubbles: gravity, after_rest_bubbles: rested } = answers;
  const leaks = shut === true;
  if (gravity === true && rested === false) return leaks ? "past threads or tube joint" : "froth from pumping";
  if (gravity === true && leaks) return "past threads and from the circuit";
  if (gravity === true) return rested === true ? "from the circuit" : "from the circuit or froth";
  if (leaks) return "past threads or tube joint";
  if (gravity === false && shut === false) return "drawn by suction";
  return "cannot tell";
}
