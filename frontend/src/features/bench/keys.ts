// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Keys for a foot pedal or a page turner: it types like a keyboard. */
import { useEffect, useRef } from "preact/hooks";

import { afterTap } from "./frames";
import { keys } from "./settings";

/** Pedals bounce; a second press this soon is the same one. */
const BOUNCE_MS = 250;

interface Deeds {
  readonly main: (() => void) | null;
  readonly undo: (() => void) | null;
}

export function usePedal(deeds: Deeds): void {
  const latest = useRef(deeds);
  latest.current = deeds;
  useEffect(() => {
    let last = Number.NEGATIVE_INFINITY;
    const onKey = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.repeat || isTyping(event)) return;
      const deed = deedOf(event.key, latest.current);
      if (deed === null) return;
      event.preventDefault();
      if (event.timeStamp - last < BOUNCE_MS) return;
      last = event.timeStamp;
      deed();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, []);
}

function deedOf(key: string, deeds: Deeds): (() => void) | null {
  if (keys.value.main.includes(key)) return deeds.main;
  return keys.value.undo.includes(key) ? deeds.undo : null;
}

/** Whoever walks by Tab presses what has the focus; a pedal presses the main bar. */
function isTyping(event: KeyboardEvent): boolean {
  const target = event.target;
  if (!(target instanceof Element)) return false;
  if (target.closest("input, textarea, select, [data-keys-own]") !== null) return true;
  const isPress = event.key === " " || event.key === "Enter";
  return isPress && target.closest("button, a, summary") !== null;
}

/** After a finger's tap the focus goes back to the main bar, so that a pedal cannot repeat the tap. */
export function giveFocusBack(event: MouseEvent): void {
  const isFinger = event.detail > 0;
  const isButton = event.target instanceof Element && event.target.closest("button") !== null;
  if (!isFinger || !isButton) return;
  afterTap(() => document.querySelector<HTMLElement>(".bar-main")?.focus({ preventScroll: true }));
}

/** The key as people call it. */
export function keyName(key: string): string {
  return key === " " ? "Space" : key;
}
