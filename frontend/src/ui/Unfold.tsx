// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

interface Props {
  readonly summary: ComponentChildren;
  readonly children: ComponentChildren;
  readonly open?: boolean;
  readonly onToggle?: (open: boolean) => void;
}

/** More to read for whoever wants it. */
export function Unfold({ summary, children, open = false, onToggle }: Props): ComponentChild {
  return (
    <details class="unfold" open={open} onToggle={(event) => onToggle?.(event.currentTarget.open)}>
      <summary>
        <span class="unfold-mark" aria-hidden="true" />
        <span>{summary}</span>
      </summary>
      <div class="unfold-body">{children}</div>
    </details>
  );
}
