// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** How this page is served, and what that way lacks. */
import { request, type Answer } from "../lib/request";
import { listOf, orNull, record, text, type Of } from "../lib/validate";

/** A way of serving the pages, and what it cannot give. */
export const level = record({ name: text, words: text, lacks: listOf(record({ code: text, words: text })) });
export type Level = Of<typeof level>;

const serving = record({
  level: text,
  levels: listOf(level),
  lan_address: orNull(text),
});
export type Serving = Of<typeof serving>;

export function getServing(signal?: AbortSignal): Answer<Serving> {
  return request("/api/serving", { check: serving, signal });
}
