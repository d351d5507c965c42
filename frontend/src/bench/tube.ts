// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the short test of the tube comes to. */
import type { TubeAnswers } from "./event";

export type Verdict =
  | "past threads or tube joint"
  | "from the circuit"
  | "gas drawn out by suction"
  | "froth from pumping"
  | "cannot tell";

export function tubeVerdict(answers: TubeAnswers): Verdict {
  const { shut_bubbles_go_on: shut, gravity_bubbles: gravity, after_rest_bubbles: rested } = answers;
  if (shut === true) return "past threads or tube joint";
  if (rested === false && gravity === true) return "froth from pumping";
  if (gravity === true) return "from the circuit";
  if (shut === false && gravity === false) return "gas drawn out by suction";
  return "cannot tell";
}
