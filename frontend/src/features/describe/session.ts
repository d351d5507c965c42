// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What was answered and is not saved yet; it lasts as long as the tab, over reloads. */
import { useState } from "preact/hooks";

import { validate, type Check } from "../../lib/validate";

export function recallHere<Value>(name: string, check: Check<Value>, otherwise: Value): Value {
  try {
    const found = validate(check, JSON.parse(sessionStorage.getItem(name) ?? "null"));
    return found.ok ? found.value : otherwise;
  } catch {
    return otherwise;
  }
}

export function rememberHere(name: string, value: unknown): void {
  try {
    sessionStorage.setItem(name, JSON.stringify(value));
  } catch {
    // A browser that keeps nothing still lets the talk go on; only a reload would lose it.
  }
}

/** A state that outlives a reload of the tab. */
export function useKept<Value>(
  name: string,
  check: Check<Value>,
  otherwise: Value,
): readonly [Value, (next: Value) => void] {
  const [value, setValue] = useState<Value>(() => recallHere(name, check, otherwise));
  const keep = (next: Value): void => {
    rememberHere(name, next);
    setValue(() => next);
  };
  return [value, keep];
}
