// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

import type { ButtonKind } from "./Button";

interface Props {
  readonly href: string;
  readonly children: ComponentChildren;
  readonly kind?: ButtonKind;
  /** Given for a file that is to be kept, not shown; its name, where it is to have one. */
  readonly download?: boolean | string;
}

/** A link that looks like a button, for going somewhere. */
export function LinkButton({ href, children, kind = "plain", download = false }: Props): ComponentChild {
  return (
    <a class={`button button-${kind}`} href={href} download={download}>
      {children}
    </a>
  );
}
