// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { to } from "../routes";
import { keepFocus } from "./focus";

interface Props {
  readonly here: string;
  readonly children: ComponentChildren;
}

const PLACES: readonly {
  readonly href: string;
  readonly name: string;
  /** Left out where the screen is narrow. */
  readonly more?: string;
  readonly screen: string;
}[] = [
  { href: to.machines(), name: "Machines", screen: "machines" },
  { href: to.newMachine(), name: "New", more: " machine", screen: "new" },
  { href: to.settings(), name: "Settings", screen: "settings" },
];

/** What stands around every page: the name, the ways, and the word that the manual comes first. */
export function Shell({ here, children }: Props): ComponentChild {
  const main = useRef<HTMLElement>(null);
  useEffect(() => (main.current === null ? undefined : keepFocus(main.current)), []);
  return (
    <>
      {/* A plain "#main" would be taken for an address of the app. */}
      <button class="skip" type="button" onClick={() => main.current?.focus()}>
        To the content
      </button>
      {/* At the bench a phone has no room to spare; the ways stand at the foot and under "more". */}
      <header class={here === "job" ? "head head-aside" : "head"}>
        <a class="head-name" href={to.machines()}>
          <Mark />
          firmlever
        </a>
        <nav aria-label="Main">
          <ul class="head-ways">
            {PLACES.map((place) => (
              <li key={place.screen}>
                <a href={place.href} aria-current={place.screen === here ? "page" : undefined}>
                  <span>
                    {place.name}
                    {place.more ? <span class="wide-only">{place.more}</span> : null}
                  </span>
                </a>
              </li>
            ))}
          </ul>
        </nav>
      </header>
      <main id="main" ref={main} tabIndex={-1}>
        {children}
      </main>
      <footer class="foot">
        <p class="foot-ways">
          <a href={to.symptoms()}>Ten symptoms</a>
          <a href={to.jobs()}>Jobs at the bench</a>
        </p>
        <p>
          The machine's own manual comes first. Where it differs from what stands here, it is right.
        </p>
      </footer>
    </>
  );
}

/** The head of a bleed screw, half full. */
function Mark(): ComponentChild {
  return (
    <svg class="head-mark" viewBox="0 0 20 20" aria-hidden="true">
      <path d="M4 11h12v4l-6 3-6-3z" fill="var(--fluid-old)" />
      <path d="M10 1l8 4.5v9L10 19l-8-4.5v-9z" fill="none" stroke="currentColor" stroke-width="2" />
    </svg>
  );
}
