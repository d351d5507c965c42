// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { dayWords } from "./dates";

const DAYS = Array.from({ length: 24 }, (_, month) => `${2025 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, "0")}-${String(month + 4).padStart(2, "0")}`);

test.each(DAYS)("%s is written as the browser would (independent: Intl)", (day) => {
  for (const language of ["en-GB", "en-US"]) {
    const own = new Intl.DateTimeFormat(language, { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
    expect(dayWords(day, language)).toBe(own.format(new Date(`${day}T00:00:00Z`)));
  }
});

test("an instant is shown in the time of this place", () => {
  expect(dayWords(new Date(2026, 4, 1, 23, 59).toISOString(), "en-GB")).toBe("1 May 2026");
});

test("what is no date stays as it is", () => {
  expect(dayWords("soon", "en-GB")).toBe("soon");
});
