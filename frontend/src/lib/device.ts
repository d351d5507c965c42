// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { recall, remember } from "./storage";
import { text } from "./validate";

const NAME = "bench device";

/** This device by a name that tells it from another of its kind; it stays once it is made. */
export function deviceHere(): string {
  const kept = recall(NAME, text, "");
  if (kept !== "") return kept;
  const kind = matchMedia("(pointer: coarse)").matches ? "phone" : "computer";
  const digits = crypto.getRandomValues(new Uint8Array(1))[0] ?? 0;
  const made = `${kind} ${digits.toString(16).padStart(2, "0")}`;
  remember(NAME, made);
  return made;
}
