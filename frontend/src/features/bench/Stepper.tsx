// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

interface Props {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  readonly least?: number;
  readonly most: number;
  /** A small and a large step. */
  readonly steps: readonly [number, number];
  readonly onChange: (value: number) => void;
}

/** A number set by thumbs: two great targets each way, nothing to type. */
export function Stepper(props: Props): ComponentChild {
  const { label, value, unit, least = 0, most, steps, onChange } = props;
  const id = useId();
  const by = (step: number): void => onChange(Math.min(most, Math.max(least, Math.round((value + step) * 10) / 10)));
  const [small, large] = steps;
  return (
    <div class="stepper" role="group" aria-labelledby={id}>
      <p id={id} class="stepper-label">
        {label}
      </p>
      <div class="stepper-row">
        <Step by={-large} unit={unit} onPress={by} />
        <Step by={-small} unit={unit} onPress={by} />
        <output class="stepper-value">
          {value} <span class="stepper-unit">{unit}</span>
        </output>
        <Step by={small} unit={unit} onPress={by} />
        <Step by={large} unit={unit} onPress={by} />
      </div>
    </div>
  );
}

function Step({ by, unit, onPress }: { by: number; unit: string; onPress: (by: number) => void }): ComponentChild {
  const sign = by < 0 ? "−" : "+";
  const word = by < 0 ? "less" : "more";
  return (
    <button type="button" class="step" aria-label={`${Math.abs(by)} ${unit} ${word}`} onClick={() => onPress(by)}>
      {sign}
      {Math.abs(by)}
    </button>
  );
}
