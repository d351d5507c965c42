// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** What this browser shows: chosen by press, kept at once. */
import { fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";

import { followDisplay, measures, theme, words } from "../../src/display";
import { Settings } from "../../src/features/settings";
import { axeFaults } from "../axe";

afterEach(() => {
  words.value = "uk";
  measures.value = "metric";
  theme.value = "as the device";
});

test("a choice shows at once in the example line", () => {
  render(<Settings />);
  const example = screen.getByRole("status");
  expect(example.textContent).toBe("So a line of a plan reads: 8 mm ring spanner on the bleed nipple, 67–80 ml");
  fireEvent.click(screen.getByRole("radio", { name: /^American/ }));
  fireEvent.click(screen.getByRole("radio", { name: /^Imperial/ }));
  // derived: 67 and 80 ml / 28.413 ml = 2.36 and 2.82 fl oz
  expect(example.textContent).toBe("So a line of a plan reads: 8 mm box-end wrench on the bleeder screw, 2.4–2.8 fl oz");
  expect(screen.getByText(/stay in millimeters and milliliters/)).toBeTruthy();
});

test("what was chosen is kept and worn by the page", () => {
  followDisplay();
  render(<Settings />);
  fireEvent.click(screen.getByRole("radio", { name: /^Ink/ }));
  fireEvent.click(screen.getByRole("radio", { name: /^American/ }));
  expect(document.documentElement.dataset["theme"]).toBe("dark");
  expect(document.documentElement.lang).toBe("en-US");
  expect([localStorage.getItem("theme"), localStorage.getItem("words")]).toEqual(['"dark"', '"us"']);
});

test("axe finds nothing", async () => {
  render(<Settings />);
  expect(await axeFaults()).toEqual([]);
});

test("a carried page offers no phones to pair", () => {
  const { rerender } = render(<Settings />);
  expect(screen.getByRole("link", { name: /^Phones/ })).toBeTruthy();
  rerender(<Settings isCarried />);
  expect(screen.queryByRole("link", { name: /^Phones/ })).toBeNull();
});
