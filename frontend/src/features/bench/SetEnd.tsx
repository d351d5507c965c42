// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { RunningSet } from "./leading";
import { MainBar, Tap } from "./MainBar";
import type { Session } from "./session";
import { SAMPLE_ML } from "./step";
import { Stepper } from "./Stepper";
import { counts } from "./words";

interface Props {
  readonly session: Session;
  readonly set: RunningSet;
  readonly onWritten: () => void;
}

/** After a set: what was led counts, or what was really done. */
export function SetEnd({ session, set, onWritten }: Props): ComponentChild {
  const { sheet } = session;
  const [done, setDone] = useState(set.done);
  const isAll = done === set.done;
  const write = (): void => {
    const { point } = set;
    if (done > set.logged) session.write({ kind: "set_done", point, count: done - set.logged });
    if (set.isSample && done > 0) session.write({ kind: "sample", point, ml: SAMPLE_ML });
    onWritten();
  };
  return (
    <section class="ask">
      <h2>{set.done < set.size ? "Halted. How many were done?" : "The set is over. Were they all done?"}</h2>
      <p>
        Screw shut? The {sheet.unit.name}s count into every countdown, so put right what differs.
        {set.logged > 0 ? ` ${counts(sheet, set.logged)} are written down already.` : ""}
      </p>
      <Stepper
        label={`Done in this set, in ${sheet.unit.name}s`}
        value={done}
        unit=""
        least={set.logged}
        most={5000}
        steps={sheet.unit.name === "stroke" ? [1, 5] : [5, 20]}
        onChange={setDone}
      />
      <div class="floor">
        {set.isSample ? (
          <div class="taps">
            <Tap
              onPress={() => {
                if (done > set.logged) session.write({ kind: "set_done", point: set.point, count: done - set.logged });
                onWritten();
              }}
            >
              No sample came of it
            </Tap>
          </div>
        ) : null}
        <MainBar
          title={endTitle(done, isAll)}
          words={set.isSample && done > 0 ? `and about ${SAMPLE_ML} ml in the small cup` : `${counts(sheet, done)} in the log`}
          onPress={write}
        />
      </div>
    </section>
  );
}

function endTitle(done: number, isAll: boolean): string {
  if (done === 0) return "None was done";
  return isAll ? `Did all ${done}` : `Did ${done}`;
}
