// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

/** Where the scale hooks in and where the ruler stands: a lever seen from above. */
export function Hook(): ComponentChild {
  return (
    <svg class="lever-hook" viewBox="0 0 300 132" role="img" aria-label="A lever seen from above: the scale hooks in a little before its end and pulls towards the grip, the ruler stands beside that point">
      <path class="lever-ink" d="M8 104H292M8 124H292" />
      <path class="lever-ink" d="M18 40L60 28H262Q276 28 276 37T262 46H64L30 62Z" />
      <circle class="lever-ink" cx="38" cy="48" r="5" />
      <path class="lever-strong" d="M232 28V58M232 58V92M226 84L232 94L238 84" />
      <path class="lever-thin" d="M250 40V100M250 48h8M250 58h5M250 68h8M250 78h5M250 88h8" />
      <path class="lever-thin" d="M232 14H276M232 9v10M276 9v10" />
      <text class="lever-axis" x="180" y="18">
        50 mm
      </text>
      <text class="lever-axis" x="188" y="78">
        pull
      </text>
      <text class="lever-axis" x="262" y="82">
        ruler
      </text>
      <text class="lever-axis" x="14" y="119">
        grip
      </text>
    </svg>
  );
}
