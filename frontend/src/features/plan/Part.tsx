// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

import { useNarrow } from "./useNarrow";

interface Props {
  readonly title: string;
  /** The main figure of what is inside, in a sentence. */
  readonly gist: string;
  readonly children: ComponentChildren;
}

/** A part of the plan; on a narrow screen it is folded and says what is inside. */
export function Part({ title, gist, children }: Props): ComponentChild {
  const isNarrow = useNarrow();
  if (!isNarrow) {
    return (
      <section class="plan-part">
        <h2>{title}</h2>
        {children}
      </section>
    );
  }
  return (
    <details class="part-fold">
      <summary>
        <span class="unfold-mark" aria-hidden="true" />
        <h2>{title}</h2>
        <span class="part-gist">{gist}</span>
      </summary>
      <div class="part-inside">{children}</div>
    </details>
  );
}
