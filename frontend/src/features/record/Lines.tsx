// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

export interface Line {
  readonly name?: string;
  /** Null where there is nothing: room to write on paper. */
  readonly words: string | null;
}

interface Props {
  readonly title: string;
  readonly lines: readonly Line[];
  readonly isSmall?: boolean;
}

/** A heading with its lines; nothing at all where there are none. */
export function Lines({ title, lines, isSmall = false }: Props): ComponentChild {
  if (lines.length === 0) return null;
  return (
    <section class="record-part">
      <h2>{title}</h2>
      <ul class={isSmall ? "record-lines record-small" : "record-lines"}>
        {lines.map(({ name, words }, place) => (
          <li key={place}>
            {name ? <strong>{name}: </strong> : null}
            {words ?? (
              <>
                <span class="not-printed">not written down</span>
                <span class="record-room only-printed" aria-hidden="true" />
              </>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
