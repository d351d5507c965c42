// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

// The browser's own writer of dates takes a quarter of a second to wake on a slow phone.
const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** A day as people write it, "1 May 2026"; an instant is shown in the time of this place. */
export function dayWords(iso: string, language: string): string {
  const isDayOnly = /^\d{4}-\d{2}-\d{2}$/.test(iso);
  const instant = new Date(isDayOnly ? `${iso}T00:00:00` : iso);
  if (Number.isNaN(instant.getTime())) return iso;
  const month = MONTHS[instant.getMonth()] ?? "";
  const [day, year] = [instant.getDate(), instant.getFullYear()];
  return language === "en-US" ? `${month} ${day}, ${year}` : `${day} ${month} ${year}`;
}

/** A time of day in this place, "09:05". */
export function timeWords(iso: string): string {
  const instant = new Date(iso);
  if (Number.isNaN(instant.getTime())) return iso;
  return [instant.getHours(), instant.getMinutes()].map((part) => String(part).padStart(2, "0")).join(":");
}

/** A day with its time, "1 May 2026, 09:05". */
export function momentWords(iso: string, language: string): string {
  return `${dayWords(iso, language)}, ${timeWords(iso)}`;
}

const [MINUTE_MS, HOUR_MS, DAY_MS] = [60_000, 3_600_000, 86_400_000];

/** How long ago, while that is less than a day; then the day. */
export function sinceWords(iso: string, now: number, language: string): string {
  const gone = now - Date.parse(iso);
  if (gone < 2 * MINUTE_MS) return "just now";
  if (gone < HOUR_MS) return `${Math.floor(gone / MINUTE_MS)} minutes ago`;
  if (gone < DAY_MS) return gone < 2 * HOUR_MS ? "an hour ago" : `${Math.floor(gone / HOUR_MS)} hours ago`;
  return `on ${dayWords(iso, language)}`;
}
