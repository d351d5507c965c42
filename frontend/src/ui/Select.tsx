// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useId } from "preact/hooks";

export interface SelectOption {
  readonly value: string;
  readonly label: string;
  /** Options of one group stand together under its name. */
  readonly group?: string;
}

interface Props {
  readonly label: ComponentChildren;
  readonly options: readonly SelectOption[];
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** One of many, where cards would fill the page. */
export function Select({ label, options, value, onChange }: Props): ComponentChild {
  const id = useId();
  const groups = [...new Set(options.map((option) => option.group ?? ""))];
  return (
    <div class="field">
      <label for={id} class="field-label">
        {label}
      </label>
      <select id={id} class="box" value={value} onChange={(event) => onChange(event.currentTarget.value)}>
        {groups.map((group) => {
          const inside = options.filter((option) => (option.group ?? "") === group).map(optionOf);
          return group === "" ? inside : <optgroup key={group} label={group}>{inside}</optgroup>;
        })}
      </select>
    </div>
  );

  function optionOf(option: SelectOption): ComponentChild {
    return (
      <option key={option.value} value={option.value} selected={option.value === value}>
        {option.label}
      </option>
    );
  }
}
