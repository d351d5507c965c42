// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Keys that work anywhere on a page of the talk. */
import { useEffect, useRef } from "preact/hooks";

interface Keys {
  /** Enter, pressed on the heading or on the page itself. */
  readonly onEnter?: () => void;
  /** An arrow key, pressed on the heading or on a card. */
  readonly onArrow?: (step: 1 | -1) => void;
  /** A figure, pressed while no box has the focus. */
  readonly onFigure?: () => void;
}

const ARROWS: Readonly<Record<string, 1 | -1>> = {
  ArrowDown: 1,
  ArrowRight: 1,
  ArrowUp: -1,
  ArrowLeft: -1,
};

const WITH_OWN_KEYS = "input, textarea, select, summary, [role=switch]";

/** Listen while the page is shown; boxes and buttons keep what is theirs. */
export function useTalkKeys(keys: Keys): void {
  const latest = useRef(keys);
  latest.current = keys;
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const at = event.target as HTMLElement;
      if (event.ctrlKey || event.metaKey || event.altKey || at.closest(WITH_OWN_KEYS)) return;
      const { onEnter, onArrow, onFigure } = latest.current;
      const step = ARROWS[event.key];
      if (step !== undefined && onArrow && isTalk(at)) {
        event.preventDefault();
        onArrow(step);
      } else if (event.key === "Enter" && onEnter && !at.closest("a, button")) {
        event.preventDefault();
        onEnter();
      } else if (/^[0-9.,]$/.test(event.key) && onFigure) onFigure();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}

function isTalk(at: HTMLElement): boolean {
  return at === document.body || at.closest("h1, .answer-card") !== null;
}
