// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Circuit files somebody is still writing; they outlive a reload and a stopped server. */
import { forget, recall, remember } from "./lib/storage";
import { orNull, record, text, whole, type Of } from "./lib/validate";

const draft = record({ read_revision: whole, text });
/** A text that is not saved, and the revision it began from. */
export type Draft = Of<typeof draft>;

function keyOf(id: string): string {
  return `draft of ${id}`;
}

export function recallDraft(id: string): Draft | null {
  return recall(keyOf(id), orNull(draft), null);
}

/** False where this browser will not keep it. */
export function keepDraft(id: string, kept: Draft): boolean {
  return remember(keyOf(id), kept);
}

export function dropDraft(id: string): void {
  forget(keyOf(id));
}
