// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { bottleWords } from "../../bench/said";
import type { BenchState } from "../../bench/state";
import { dayShown, say } from "../../display";
import { Field } from "../../ui/Field";
import { Tap } from "./MainBar";
import type { Session } from "./session";

interface Props {
  readonly session: Session;
  readonly state: BenchState;
}

/** The bottle that the new fluid comes from, for the record. */
export function BottleEntry({ session, state }: Props): ComponentChild {
  const [fluid, setFluid] = useState(session.sheet.fluid);
  const [batch, setBatch] = useState("");
  const [openedOn, setOpenedOn] = useState("");
  const isOther = fluid.trim() !== session.sheet.fluid;
  const write = (): void => {
    if (fluid.trim() === "") return;
    const told = (text: string): string | null => text.trim().slice(0, 60) || null;
    session.write({ kind: "bottle", fluid: fluid.trim().slice(0, 60), batch: told(batch), opened_on: openedOn || null });
    setBatch("");
    setOpenedOn("");
  };
  return (
    <div class="bottle">
      {state.bottles.length === 0 ? null : (
        <ul role="status">
          {state.bottles.map((one) => (
            <li key={one.event}>{bottleWords(one, dayShown)}</li>
          ))}
        </ul>
      )}
      <Field
        label="The label says"
        value={fluid}
        onInput={setFluid}
        error={isOther ? say(`The plan is for ${session.sheet.fluid}. Another fluid can ruin every seal.`) : null}
      />
      <Field label="Batch or lot" hint="as printed, where there is one" value={batch} onInput={setBatch} />
      <Field label="Opened on" hint="today, if it was sealed until now" isDay value={openedOn} onInput={setOpenedOn} />
      <div class="taps">
        <Tap onPress={write}>
          {state.bottles.length === 0 ? "Write this bottle down" : "Write another bottle down"}
        </Tap>
      </div>
    </div>
  );
}
