// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Who works by keyboard keeps a place on the page when the button under it goes away. */

/** What a page puts in by itself comes first: a new heading, a new box. */
const WAIT_MS = 60;
const USABLE = "button:not(:disabled), a[href], input:not(:disabled), textarea, select, summary";

/**
 * Watch a part of the page. When what had the focus is taken away or disabled, the nearest
 * notice gets it, or else the nearest thing that can be pressed. Returns how to stop.
 */
export function keepFocus(root: HTMLElement): () => void {
  let last: HTMLElement | null = null;
  let around: readonly HTMLElement[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;

  const remember = (event: FocusEvent): void => {
    last = event.target as HTMLElement;
    around = ancestorsOf(last, root);
  };
  const letGo = (event: FocusEvent): void => {
    const left = event.target as HTMLElement;
    // Somebody went elsewhere; what is taken away is not there any more when this runs.
    setTimeout(() => {
      if (isUsable(left) && last === left) last = null;
    });
  };
  const look = (): void => {
    if (last === null || isUsable(last) || document.activeElement !== document.body) return;
    const place = around.filter((one) => one.isConnected).map(landingIn).find((one) => one !== null);
    place?.focus({ preventScroll: place.classList.contains("notice") });
    place?.scrollIntoView?.({ block: "nearest" });
  };
  const observer = new MutationObserver(() => {
    clearTimeout(timer);
    timer = setTimeout(look, WAIT_MS);
  });

  root.addEventListener("focusin", remember);
  root.addEventListener("focusout", letGo);
  observer.observe(root, { subtree: true, childList: true, attributeFilter: ["disabled"] });
  return () => {
    clearTimeout(timer);
    observer.disconnect();
    root.removeEventListener("focusin", remember);
    root.removeEventListener("focusout", letGo);
  };
}

function ancestorsOf(element: HTMLElement, root: HTMLElement): readonly HTMLElement[] {
  const found: HTMLElement[] = [];
  for (let one = element.parentElement; one !== null && root.contains(one); one = one.parentElement) found.push(one);
  return found;
}

function isUsable(element: HTMLElement): boolean {
  return element.isConnected && !element.matches(":disabled");
}

function landingIn(place: HTMLElement): HTMLElement | null {
  const notice = place.matches(".notice") ? place : place.querySelector<HTMLElement>(".notice");
  if (notice === null) return place.querySelector<HTMLElement>(USABLE);
  notice.tabIndex = -1;
  return notice;
}
