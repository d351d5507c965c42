// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { askAhead } from "../lib/request";
import { circuitPath } from "./paths";
import { wishOf } from "./wish";

/** Ask for the plan an address is about before its screen is there, which then takes the answer. */
export function makePlanAhead(id: string, circuit: string, hash: string): void {
  askAhead(`${circuitPath(id, circuit)}/plan`, { method: "POST", json: wishOf(hash) });
}
