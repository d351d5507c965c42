// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";

interface Props {
  readonly title: string;
  readonly children: ComponentChildren;
  /** One line under the title. */
  readonly lead?: ComponentChildren;
  /** Where one came from, and its name. */
  readonly back?: { readonly href: string; readonly name: string };
}

let isFirst = true;

/** A page: its heading takes the focus when it opens, so that a screen reader says where one is. */
export function Screen({ title, children, lead, back }: Props): ComponentChild {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · firmlever`;
  }, [title]);
  useEffect(() => {
    if (!isFirst) {
      window.scrollTo(0, 0);
      heading.current?.focus({ preventScroll: true });
    }
    isFirst = false;
  }, []);
  return (
    <div class="screen">
      {back ? (
        <p class="back">
          <a href={back.href}>
            <span aria-hidden="true">←</span> {back.name}
          </a>
        </p>
      ) : null}
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      {lead ? <p class="lead">{lead}</p> : null}
      {children}
    </div>
  );
}
