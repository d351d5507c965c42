// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The drawing of a machine that is still being described. */
import { request, type Answer } from "../lib/request";
import { listOf, record, text, type Of } from "../lib/validate";
import { scene } from "./circuits";
import type { Outline } from "./machines";

export const preview = record({ scenes: listOf(record({ circuit: text, scene })) });
export type Preview = Of<typeof preview>;

/** Draw the circuits an outline would have; nothing is kept. */
export function previewOutline(outline: Outline, signal?: AbortSignal): Answer<Preview> {
  return request("/api/preview", { method: "POST", json: { outline }, check: preview, signal });
}
