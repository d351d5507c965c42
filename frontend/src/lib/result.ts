// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What came of something that can go wrong: a value, or why there is none. */
export type Result<Value, Reason> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly reason: Reason };

export function done<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

export function failed<Reason>(reason: Reason): { readonly ok: false; readonly reason: Reason } {
  return { ok: false, reason };
}
