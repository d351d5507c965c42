// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** At the bench of a fill: air looks like air, and nothing is said of how new it is. */
import { render } from "@testing-library/preact";
import { expect, test } from "vitest";

import type { Turn } from "../../src/bench/state";
import { Patterns } from "../../src/drawing/patterns";
import { outWords } from "../../src/features/bench/words";
import { sheetNamed } from "./bench";

test("air in a strip is drawn as bubbles, not as old fluid", () => {
  const { container } = render(
    <svg>
      <Patterns id="p" origins={["air", "new"]} />
    </svg>,
  );
  expect([...container.querySelectorAll("rect")].map((one) => one.getAttribute("class"))).toEqual(["tone-air"]);
});

test("how new it is by now is told in a flush alone", () => {
  const turn = { out_ml: { p05: 4, p50: 5, p95: 6 }, new_share: { p05: 0, p50: 0, p95: 0 } } as Turn;
  expect(outWords(sheetNamed("skerry-front"), turn)).toBe("5 ml out · 0 % new");
  expect(outWords(sheetNamed("fill"), turn)).toBe("5 ml out");
});
