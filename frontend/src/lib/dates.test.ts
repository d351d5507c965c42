// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { dayWords, momentWords, sinceWords, timeWords } from "./dates";

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

test("a moment has its day and its time", () => {
  const early = new Date(2026, 4, 1, 9, 5).toISOString();
  expect(momentWords(early, "en-GB")).toBe("1 May 2026, 09:05");
  expect(momentWords(early, "en-US")).toBe("May 1, 2026, 09:05");
  expect(timeWords("soon")).toBe("soon");
});

test.each([
  [0, "just now"],
  [119, "just now"],
  [120, "2 minutes ago"],
  [3599, "59 minutes ago"],
  [3600, "an hour ago"],
  [7200, "2 hours ago"],
  [86_399, "23 hours ago"],
  [86_400, "on 30 April 2026"],
])("%i seconds ago is %s", (seconds, written) => {
  const now = new Date(2026, 4, 1, 12).getTime();
  expect(sinceWords(new Date(now - 1000 * seconds).toISOString(), now, "en-GB")).toBe(written);
});
