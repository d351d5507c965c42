// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** A day as people write it, "1 May 2026"; an instant is shown in the time of this place. */
export function dayWords(iso: string, language: string): string {
  const isDayOnly = /^\d{4}-\d{2}-\d{2}$/.test(iso);
  const instant = new Date(isDayOnly ? `${iso}T00:00:00Z` : iso);
  if (Number.isNaN(instant.getTime())) return iso;
  return new Intl.DateTimeFormat(language, {
    day: "numeric",
    month: "long",
    year: "numeric",
    ...(isDayOnly ? { timeZone: "UTC" } : {}),
  }).format(instant);
}
