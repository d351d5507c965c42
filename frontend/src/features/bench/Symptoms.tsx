// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { say } from "../../display";
import { Screen } from "../../ui/Screen";
import { Unfold } from "../../ui/Unfold";
import symptoms from "./symptoms.json";
import "./symptoms.css";

/** The ten commonest complaints, each with the check that separates its causes. */
export function Symptoms(): ComponentChild {
  return (
    <Screen
      title="Ten symptoms"
      lead="Find what you feel, do its check, and read what it tells. Common practice, no source; the machine's manual comes first."
    >
      <div class="symptoms">
        {symptoms.map((one) => (
          <Unfold
            key={one.id}
            summary={
              <>
                {say(one.complaint)}
                {one.stop === null ? null : (
                  <span class="symptom-stop">
                    <span class="mark mark-stop" aria-hidden="true" /> stop work
                  </span>
                )}
              </>
            }
          >
            {one.stop === null ? null : (
              <p class="symptom-stop-words">
                <span class="mark mark-stop" aria-hidden="true" /> {say(one.stop)}
              </p>
            )}
            <p>
              <strong>Check:</strong> {say(one.check)}
            </p>
            <dl class="tells">
              {one.tells.map((tell) => (
                <div key={tell.sees}>
                  <dt>{say(tell.sees)}</dt>
                  <dd>{say(tell.means)}</dd>
                </div>
              ))}
            </dl>
          </Unfold>
        ))}
      </div>
    </Screen>
  );
}
