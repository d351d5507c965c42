// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { AirSeen } from "../../bench/air";
import type { JobSheet } from "../../bench/sheet";
import type { BenchState } from "../../bench/state";
import { say } from "../../display";
import { Unfold } from "../../ui/Unfold";
import { givenNames } from "./words";

const SAYS: Readonly<Record<AirSeen["says"], string>> = {
  open: "still open",
  "seen out": "bubbles seen out",
  "not seen": "no bubbles seen",
};

/** Where air may sit, and which of it has been seen in the tube. */
export function AirList({ sheet, state }: { readonly sheet: JobSheet; readonly state: BenchState }): ComponentChild {
  if (sheet.air.length === 0) return null;
  const keep = givenNames(sheet);
  const open = state.air.filter((one) => one.says === "open").length;
  return (
    <Unfold summary={`Air: ${open} of ${sheet.air.length} places still open`}>
      <ul>
        {sheet.air.map((place, index) => {
          const says = state.air[index]?.says ?? "open";
          const isStuck = says === "not seen" || place.screw === null;
          return (
            <li key={place.id}>
              {say(place.words, keep)}: <strong>{SAYS[says]}</strong>
              {isStuck ? <span class="soft"> {say(place.remedy, keep)}</span> : null}
            </li>
          );
        })}
      </ul>
      {sheet.froth_minutes === null ? null : (
        <p>Froth in the tube: shut the screw and leave everything alone for {sheet.froth_minutes} minutes.</p>
      )}
    </Unfold>
  );
}
