// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** How two texts differ, line by line. */

export interface DifferentLine {
  readonly side: "both" | "theirs" | "yours";
  readonly text: string;
}

// Beyond this the middle is shown whole on both sides rather than matched line by line.
const MOST_CELLS = 4_000_000;

/** Every line of both texts in one run: shared, only in theirs, only in yours. */
export function differenceOf(theirs: string, yours: string): readonly DifferentLine[] {
  const [old, fresh] = [theirs.split("\n"), yours.split("\n")];
  const start = sharedStart(old, fresh);
  const end = sharedStart(old.slice(start).reverse(), fresh.slice(start).reverse());
  const middle = matched(
    old.slice(start, old.length - end),
    fresh.slice(start, fresh.length - end),
  );
  const both = (lines: readonly string[]): DifferentLine[] =>
    lines.map((text) => ({ side: "both", text }));
  return [...both(old.slice(0, start)), ...middle, ...both(old.slice(old.length - end))];
}

function sharedStart(one: readonly string[], other: readonly string[]): number {
  let length = 0;
  while (length < one.length && length < other.length && one[length] === other[length]) length += 1;
  return length;
}

function matched(theirs: readonly string[], yours: readonly string[]): DifferentLine[] {
  const apart = (side: "theirs" | "yours", lines: readonly string[]): DifferentLine[] =>
    lines.map((text) => ({ side, text }));
  const width = yours.length + 1;
  if (theirs.length * width > MOST_CELLS) return [...apart("theirs", theirs), ...apart("yours", yours)];

  const longest = longestShared(theirs, yours);
  const at = (row: number, column: number): number => longest[row * width + column] ?? 0;
  const lines: DifferentLine[] = [];
  let [row, column] = [0, 0];
  while (row < theirs.length && column < yours.length) {
    if (theirs[row] === yours[column]) {
      lines.push({ side: "both", text: theirs[row] ?? "" });
      row += 1;
      column += 1;
    } else if (at(row + 1, column) >= at(row, column + 1)) {
      lines.push({ side: "theirs", text: theirs[row] ?? "" });
      row += 1;
    } else {
      lines.push({ side: "yours", text: yours[column] ?? "" });
      column += 1;
    }
  }
  return [...lines, ...apart("theirs", theirs.slice(row)), ...apart("yours", yours.slice(column))];
}

/** For each pair of places, how many lines what follows them has in common. */
function longestShared(theirs: readonly string[], yours: readonly string[]): Uint32Array {
  const width = yours.length + 1;
  const longest = new Uint32Array((theirs.length + 1) * width);
  for (let row = theirs.length - 1; row >= 0; row -= 1) {
    for (let column = yours.length - 1; column >= 0; column -= 1) {
      const [below, beside] = [longest[(row + 1) * width + column], longest[row * width + column + 1]];
      longest[row * width + column] =
        theirs[row] === yours[column]
          ? (longest[(row + 1) * width + column + 1] ?? 0) + 1
          : Math.max(below ?? 0, beside ?? 0);
    }
  }
  return longest;
}
