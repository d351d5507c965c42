// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Old fluid by where it comes from: one amber, a hatch of its own for each origin; air is bubbles on paper. */
import type { ComponentChild } from "preact";

import { AIR, NEW, REST } from "./layers";

const HATCHES = [
  { tone: "old", path: "M0 8L8 0M-2 2L2 -2M6 10L10 6" },
  { tone: "old", path: "M0 0L8 8M-2 6L2 10M6 -2L10 2" },
  { tone: "mixed", path: "M4 0V8M0 4H8" },
  { tone: "old", path: "M0 0L8 8M0 8L8 0" },
  { tone: "mixed", path: "M2 0V8M6 0V8" },
  { tone: "old", path: "M4 2V6M0 -2V2M8 -2V2M0 6V10M8 6V10" },
] as const;
const LINES = { tone: "mixed", path: "M0 2H8M0 6H8" } as const;
const BUBBLES = { tone: "air", path: "M1.5 2.5a1.5 1.5 0 1 0 3 0a1.5 1.5 0 1 0 -3 0M5 6.5a1 1 0 1 0 2 0a1 1 0 1 0 -2 0" } as const;
const PLAIN = { tone: "mixed", path: "" } as const;

type Hatch = { readonly tone: string; readonly path: string };

function hatchOf(origin: string, origins: readonly string[]): Hatch {
  if (origin === "lines") return LINES;
  if (origin === REST) return PLAIN;
  if (origin === AIR) return BUBBLES;
  const place = origins.filter((one) => one !== "lines").indexOf(origin);
  return HATCHES[place % HATCHES.length] ?? PLAIN;
}

/** The pattern of each origin but the new fluid, which is plain. */
export function Patterns(props: { id: string; origins: readonly string[] }): ComponentChild {
  return (
    <defs>
      {props.origins.map((origin, place) =>
        origin === NEW ? null : (
          <Pattern key={origin} id={`${props.id}-${place}`} hatch={hatchOf(origin, props.origins)} />
        ),
      )}
    </defs>
  );
}

function Pattern({ id, hatch }: { id: string; hatch: Hatch }): ComponentChild {
  return (
    <pattern id={id} width="8" height="8" patternUnits="userSpaceOnUse">
      <rect class={`tone-${hatch.tone}`} width="8" height="8" />
      <path class="hatch" d={hatch.path} />
    </pattern>
  );
}

/** What fills a layer. */
export function fillOf(id: string, origin: string, place: number): string {
  return origin === NEW ? "var(--fluid-new)" : `url(#${id}-${place})`;
}
