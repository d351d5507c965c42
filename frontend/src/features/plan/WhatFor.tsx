// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { WishChange } from "../../api/wish";
import { Choice } from "../../ui/Choice";

interface Props {
  readonly work: "flush" | "bleed" | "fill";
  readonly onChange: (change: WishChange) => void;
}

const OFFERED = [
  { value: "flush", label: "New fluid", hint: "The circuit is full, its fluid is old." },
  { value: "fill", label: "Dry circuit", hint: "It was opened, rebuilt or run dry." },
] as const;

/** What the work is for; ways of working belong to one kind of work and fall back to the usual. */
export function WhatFor({ work, onChange }: Props): ComponentChild {
  return (
    <div class="offer">
      <Choice
        legend="What for"
        isCompact
        options={OFFERED}
        value={work}
        onChange={(next) =>
          onChange({ work: next === "fill" ? next : undefined, technique: undefined, pistons_home: undefined })
        }
      />
    </div>
  );
}
