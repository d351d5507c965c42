// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The machine that was removed last, so that it can be put back while this tab is open. */
import { signal } from "@preact/signals";

export interface Removed {
  readonly name: string;
  readonly text: string;
}

export const lastRemoved = signal<Removed | null>(null);
