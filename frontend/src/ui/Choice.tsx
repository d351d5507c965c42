// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useId } from "preact/hooks";

export interface Option<Value> {
  readonly value: Value;
  readonly label: ComponentChildren;
  readonly hint?: ComponentChildren;
  /** A small drawing of it. */
  readonly picture?: ComponentChild;
}

interface Props<Value> {
  /** The sentence before the choice. */
  readonly legend: ComponentChildren;
  readonly options: readonly Option<Value>[];
  readonly value: Value | undefined;
  readonly onChange: (value: Value) => void;
  readonly hint?: ComponentChildren;
  readonly error?: string | null;
  /** Small cards side by side instead of one below the other. */
  readonly isCompact?: boolean;
}

/** One of a few: cards, of which exactly one is taken. Arrow keys walk through them. */
export function Choice<Value extends string | number | boolean | null>(
  props: Props<Value>,
): ComponentChild {
  const name = useId();
  return (
    <fieldset class={props.isCompact ? "choice choice-compact" : "choice"}>
      <legend class="field-label">{props.legend}</legend>
      {props.hint ? <p class="field-hint">{props.hint}</p> : null}
      <div class="choice-cards">
        {props.options.map((option, position) => (
          <label class="card" key={String(option.value)}>
            <input
              type="radio"
              name={name}
              value={position}
              checked={option.value === props.value}
              onChange={() => props.onChange(option.value)}
            />
            <span class="card-mark" aria-hidden="true" />
            {option.picture ? (
              // The label and the hint say the same.
              <span class="card-picture" aria-hidden="true">
                {option.picture}
              </span>
            ) : null}
            <span class="card-words">
              <span class="card-label">{option.label}</span>
              {option.hint ? <span class="card-hint">{option.hint}</span> : null}
            </span>
          </label>
        ))}
      </div>
      {props.error ? (
        <p class="field-error" role="alert">
          <span class="mark mark-stop" aria-hidden="true" /> {props.error}
        </p>
      ) : null}
    </fieldset>
  );
}
