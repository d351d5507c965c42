// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

interface Props {
  /** The middle, already written: "9 %". */
  readonly value: string;
  /** The range that goes with it: "5–17". Left out where there is none. */
  readonly band?: string;
  /** What the figure says, as a mechanic would say it. */
  readonly children: ComponentChildren;
}

/** The one large figure of a screen, with its band beside it in plain type. */
export function Figure({ value, band, children }: Props): ComponentChild {
  return (
    <p class="figure">
      <span class="figure-value">{value}</span> {band ? <span class="figure-band">({band})</span> : null}{" "}
      <span class="figure-words">{children}</span>
    </p>
  );
}
