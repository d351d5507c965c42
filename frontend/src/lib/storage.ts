// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { validate, type Check } from "./validate";

/** What this browser remembers under a name; `otherwise` where it remembers nothing usable. */
export function recall<Value>(name: string, check: Check<Value>, otherwise: Value): Value {
  try {
    const kept = localStorage.getItem(name);
    if (kept === null) return otherwise;
    const found = validate(check, JSON.parse(kept));
    return found.ok ? found.value : otherwise;
  } catch {
    return otherwise;
  }
}

/** Remember a value; false where the browser will not keep anything. */
export function remember(name: string, value: unknown): boolean {
  try {
    localStorage.setItem(name, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export function forget(name: string): void {
  try {
    localStorage.removeItem(name);
  } catch {
    // A browser that keeps nothing has nothing to forget.
  }
}
