// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import type { Offer } from "../../api/phones";
import { Button } from "../../ui/Button";
import { Notice } from "../../ui/Notice";

const TICK_MS = 500;
const HALF = 4;

interface Props {
  readonly offer: Offer;
  readonly onAgain: () => void;
}

/** A code while it is good: for a camera, for a hand, and how long it lasts. */
export function ShownCode({ offer, onAgain }: Props): ComponentChild {
  const left = useSecondsLeft(offer.expires_at);
  if (left === 0) {
    return (
      <Notice kind="note" title="The code has run out">
        <p>It pairs nothing any more.</p>
        <Button kind="do" onClick={onAgain}>
          Make a new code
        </Button>
      </Notice>
    );
  }
  return (
    <div class="code">
      <img
        class="code-picture"
        src={`data:image/svg+xml,${encodeURIComponent(offer.qr_svg)}`}
        alt="Square code for a phone's camera; it opens the address with the code filled in"
      />
      <div class="code-words">
        <p>Point the phone's camera at the square. Or type this address into its browser, then the code.</p>
        <p class="code-address">{offer.address}</p>
        <p class="code-letters">
          <span class="only-heard">The code, letter by letter: {[...offer.code].join(" ")}</span>
          <span aria-hidden="true">
            {offer.code.slice(0, HALF)} {offer.code.slice(HALF)}
          </span>
        </p>
        <p>
          Good for <strong class="code-left">{clockWords(left)}</strong> more, and for one phone.
        </p>
      </div>
    </div>
  );
}

/** Whole seconds until then, never below 0. */
function useSecondsLeft(until: string): number {
  const count = (): number => Math.max(0, Math.ceil((Date.parse(until) - Date.now()) / 1000));
  const [left, setLeft] = useState(count);
  const isOver = left === 0;
  useEffect(() => {
    if (isOver) return;
    const timer = setInterval(() => setLeft(count()), TICK_MS);
    return () => clearInterval(timer);
  }, [until, isOver]);
  return left;
}

function clockWords(seconds: number): string {
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
