// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import type { Mode } from "./reading";

const WAYS: readonly { readonly mode: Mode; readonly label: string }[] = [
  { mode: "value", label: "Measured" },
  { mode: "give", label: "Give or take" },
  { mode: "between", label: "From … to" },
];

/** How well somebody knows a figure: three ways to write it down, side by side. */
export function HowWell(props: { mode: Mode; onChange: (mode: Mode) => void }): ComponentChild {
  const name = useId();
  return (
    <fieldset class="how-well">
      <legend class="only-heard">How well do you know it?</legend>
      {WAYS.map(({ mode, label }) => (
        <label class="card how-well-card" key={mode}>
          <input type="radio" name={name} checked={mode === props.mode} onChange={() => props.onChange(mode)} />
          <span class="card-label">{label}</span>
        </label>
      ))}
    </fieldset>
  );
}
