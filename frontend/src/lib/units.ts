// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Which measures are shown. Values are kept and sent in metric ones. */
export type Measures = "metric" | "imperial";

interface Shown {
  readonly label: string;
  /** shown = metric * factor + offset */
  readonly factor: number;
  readonly offset: number;
}

const METRIC_LABELS: Readonly<Record<string, string>> = {
  degC: "°C",
  mm2: "mm²",
  "ml/cm2": "ml/cm²",
  "mm/100N": "mm at 100 N",
};

// Source: published, the definitions of the inch (25.4 mm), the pound (0.45359237 kg), the
// imperial fluid ounce (28.4130625 ml) and the pound-force per square inch (6.894757 kPa).
const IMPERIAL: Readonly<Record<string, Shown>> = {
  mm: { label: "in", factor: 1 / 25.4, offset: 0 },
  "mm/100N": { label: "in at 100 N", factor: 1 / 25.4, offset: 0 },
  ml: { label: "fl oz", factor: 1 / 28.4130625, offset: 0 },
  kg: { label: "lb", factor: 1 / 0.45359237, offset: 0 },
  // Source: published, the definition of the mile (1609.344 m).
  km: { label: "mi", factor: 1 / 1.609344, offset: 0 },
  degC: { label: "°F", factor: 1.8, offset: 32 },
  kPa: { label: "psi", factor: 1 / 6.894757, offset: 0 },
  bar: { label: "psi", factor: 100 / 6.894757, offset: 0 },
};

function shownAs(unit: string, measures: Measures): Shown {
  const imperial = measures === "imperial" ? IMPERIAL[unit] : undefined;
  return imperial ?? { label: METRIC_LABELS[unit] ?? unit, factor: 1, offset: 0 };
}

/** What is written after the figure. */
export function unitLabel(unit: string, measures: Measures): string {
  return shownAs(unit, measures).label;
}

/** A metric value as it is shown. */
export function toShown(value: number, unit: string, measures: Measures): number {
  const { factor, offset } = shownAs(unit, measures);
  return value * factor + offset;
}

/** A shown value as it is kept. */
export function fromShown(value: number, unit: string, measures: Measures): number {
  const { factor, offset } = shownAs(unit, measures);
  return (value - offset) / factor;
}

/** What a hanging scale shows its force in. */
export type Scale = "N" | "kg" | "lb";

// Source: published, standard gravity (9.80665 m/s2, CGPM 1901) and the pound as above.
const NEWTONS: Readonly<Record<Scale, number>> = { N: 1, kg: 9.80665, lb: 9.80665 * 0.45359237 };

/** What the scale shows, as newtons. */
export function newtonsOf(shownForce: number, scale: Scale): number {
  return shownForce * NEWTONS[scale];
}

/** Newtons, as the scale shows them. */
export function onScale(newtons: number, scale: Scale): number {
  return newtons / NEWTONS[scale];
}
