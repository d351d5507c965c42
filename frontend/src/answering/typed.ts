// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What somebody typed at the bench, read as a figure. */

const NUMBER = String.raw`[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)`;
const FRACTION = String.raw`(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)`;
const UNITS = String.raw`(mm|cm|ml|cc|in(?:ch(?:es)?)?|["″”]|fl\s?oz|%)?`;
const TYPED = new RegExp(`^(?:${FRACTION}|(${NUMBER}))\\s*${UNITS}\\.?$`, "i");

export type TypedUnit = "mm" | "cm" | "ml" | "in" | "fl oz" | "%" | null;

export interface Typed {
  readonly value: number;
  /** The unit written behind it; null where none is. */
  readonly unit: TypedUnit;
}

/** Read "12.7", "12,7", "5/8 in", "1 1/4"; null where it is no figure. */
export function readTyped(text: string): Typed | null {
  const found = TYPED.exec(text.trim());
  if (!found) return null;
  const [, whole = "0", above, below, decimal, unit] = found;
  const value =
    decimal === undefined
      ? Number(whole) + Number(above) / Number(below)
      : Number(decimal.replace(",", "."));
  return Number.isFinite(value) ? { value, unit: unitOf(unit) } : null;
}

function unitOf(written: string | undefined): TypedUnit {
  switch (written?.toLowerCase().replace(/\s/g, "")) {
    case undefined:
      return null;
    case "mm":
      return "mm";
    case "cm":
      return "cm";
    case "ml":
    case "cc":
      return "ml";
    case "floz":
      return "fl oz";
    case "%":
      return "%";
    default:
      return "in";
  }
}
