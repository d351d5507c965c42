// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A tap is seen first: what else it changes on the screen is drawn after the next frame. */
import { options } from "preact";
import { useEffect } from "preact/hooks";

/** A page that is not painted, such as one put away, does not wait for its frame. */
const LONGEST_WAIT_MS = 150;

type Work = () => void;

let isShowing = false;
let waiting: readonly Work[] = [];
let taps = 0;

/** Do something when the next frame is on its way; at once where no tap waits for its frame. */
export function afterTap(work: Work): void {
  if (isShowing) waiting = [...waiting, work];
  else queueMicrotask(work);
}

/** Take up everything that waits for a frame. */
export function catchUp(): void {
  isShowing = false;
  const work = waiting;
  waiting = [];
  work.forEach((one) => one());
}

options.debounceRendering = afterTap;

/** While this screen stands, taps on its buttons are seen before anything is drawn. */
export function useTapsFirst(): void {
  useEffect(() => {
    // The finger meets what the last tap made of the screen, never what stood there before it.
    window.addEventListener("pointerdown", catchUp, { capture: true });
    window.addEventListener("click", onClick, { capture: true });
    document.addEventListener("visibilitychange", catchUp);
    return () => {
      window.removeEventListener("pointerdown", catchUp, { capture: true });
      window.removeEventListener("click", onClick, { capture: true });
      document.removeEventListener("visibilitychange", catchUp);
      catchUp();
    };
  }, []);
}

function onClick(event: MouseEvent): void {
  const button = event.target instanceof Element ? event.target.closest<HTMLElement>(".bench button") : null;
  catchUp();
  if (button === null) return;
  if (!button.isConnected) {
    // A second press in the same frame was meant for what is not there any more.
    event.stopPropagation();
    return;
  }
  button.dataset["taken"] = "";
  isShowing = true;
  taps += 1;
  const mine = taps;
  afterTap(() => delete button.dataset["taken"]);
  nextFrame(() => {
    if (mine === taps) catchUp();
  });
}

const made = new MessageChannel();
made.port1.start();

/** Once, as soon as a frame was made: a message comes after the painting that follows the callback. */
function nextFrame(work: Work): void {
  const over = new AbortController();
  const once = (): void => {
    if (over.signal.aborted) return;
    over.abort();
    clearTimeout(timer);
    work();
  };
  const timer = setTimeout(once, LONGEST_WAIT_MS);
  requestAnimationFrame(() => {
    made.port1.addEventListener("message", once, { signal: over.signal });
    made.port2.postMessage(null);
  });
}
