// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface Props {
  readonly label: ComponentChildren;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
  /** What it does, or what it saves. */
  readonly hint?: ComponentChildren;
  readonly disabled?: boolean;
}

/** Something that is so or not so; its state is a word as well as a place. */
export function Switch({ label, on, onChange, hint, disabled = false }: Props): ComponentChild {
  const id = useId();
  return (
    <button
      type="button"
      role="switch"
      class="switch"
      aria-checked={on}
      aria-labelledby={`${id}-label`}
      {...(hint ? { "aria-describedby": `${id}-hint` } : {})}
      disabled={disabled}
      onClick={() => onChange(!on)}
    >
      <span class="switch-words">
        <span id={`${id}-label`} class="switch-label">
          {label}
        </span>
        {hint ? (
          <span id={`${id}-hint`} class="switch-hint">
            {hint}
          </span>
        ) : null}
      </span>
      <span class="switch-state" aria-hidden="true">
        <span class="switch-track">
          <span class="switch-knob" />
        </span>
        {on ? "yes" : "no"}
      </span>
    </button>
  );
}
