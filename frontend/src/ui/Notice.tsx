// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

/** "stop" and "do" are the two accents; "note" only tells, "done" says that it worked. */
export type NoticeKind = "note" | "do" | "stop" | "done";

interface Props {
  readonly kind: NoticeKind;
  readonly title?: ComponentChildren;
  readonly children?: ComponentChildren;
}

/** Something said apart from the text around it: a shape, a word and a colour. */
export function Notice({ kind, title, children }: Props): ComponentChild {
  return (
    <div class={`notice notice-${kind}`} role={kind === "stop" ? "alert" : kind === "done" ? "status" : "note"}>
      {title ? (
        <p class="notice-title">
          {kind === "note" ? null : <span class={`mark mark-${kind}`} aria-hidden="true" />} {title}
        </p>
      ) : null}
      {children}
    </div>
  );
}
