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
