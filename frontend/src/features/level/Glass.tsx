// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

const TOP = 40;
const BOTTOM = 140;
const LOWEST = -0.2;

interface Props {
  /** 0 at MIN, 1 at MAX. */
  readonly share: number;
  readonly onShare: (share: number) => void;
}

function heightOf(share: number): number {
  return BOTTOM - share * (BOTTOM - TOP);
}

/** The window of the reservoir, its level set by the slider or a touch on the glass. */
export function Glass({ share, onShare }: Props): ComponentChild {
  const id = useId();
  const perCent = Math.round(share * 100);
  const touch = (event: PointerEvent & { currentTarget: SVGSVGElement }): void => {
    if (event.buttons === 0) return;
    const box = event.currentTarget.getBoundingClientRect();
    const y = ((event.clientY - box.top) / box.height) * 180;
    const raw = (BOTTOM - y) / (BOTTOM - TOP);
    onShare(Math.min(1, Math.max(LOWEST, Math.round(raw * 20) / 20)));
  };
  return (
    <div class="glass">
      <span id={id} class="field-label">
        Level between MIN and MAX
      </span>
      <svg
        viewBox="0 0 240 180"
        class="glass-window"
        aria-hidden="true"
        onPointerDown={touch}
        onPointerMove={touch}
      >
        <rect x="40" y="20" width="120" height="148" rx="14" class="glass-pane" />
        <rect x="42" y={heightOf(share)} width="116" height={166 - heightOf(share)} class="glass-fluid" />
        <path d={`M40 ${TOP}H172M40 ${BOTTOM}H172`} class="glass-mark" />
        <text x="178" y={TOP + 5}>
          MAX
        </text>
        <text x="178" y={BOTTOM + 5}>
          MIN
        </text>
      </svg>
      <input
        aria-labelledby={id}
        class="glass-slider"
        type="range"
        min={LOWEST * 100}
        max="100"
        step="5"
        value={perCent}
        aria-valuetext={wordsOf(share)}
        onInput={(event) => onShare(Number(event.currentTarget.value) / 100)}
      />
      <p class="glass-words">{wordsOf(share)}</p>
    </div>
  );
}

export function wordsOf(share: number): string {
  if (share < 0) return "below MIN";
  if (share === 0) return "at MIN";
  if (share === 1) return "at MAX";
  return `${Math.round(share * 100)} % of the way from MIN to MAX`;
}
