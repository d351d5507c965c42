// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { signal } from "@preact/signals";
import type { ComponentChild } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { AtBench } from "../features/bench/AtBench";
import { openSession, type Hand, type Session } from "../features/bench/session";
import { LevelWords } from "../features/bench/ServedHow";
import { Symptoms } from "../features/bench/Symptoms";
import { TakeHome } from "../features/bench/TakeHome";
import { Settings } from "../features/settings/Settings";
import { routeOf, to } from "../routes";
import { keepFocus } from "../ui/focus";
import { pageKeeper, type Carried } from "./document";

const here = signal(routeOf(location.hash).screen);
window.addEventListener("hashchange", () => {
  here.value = routeOf(location.hash).screen;
});

/** The job is opened once: what a full phone could not write down lives in the session. */
const session = signal<Session | null>(null);

/** One job, carried along: the bench as it is in the app, and the way home. */
export function Page({ page }: { readonly page: Carried }): ComponentChild {
  const open = async (id: string, hand: Hand): ReturnType<typeof openSession> => {
    if (session.value !== null) return { ok: true, value: session.value };
    const opened = await openSession(id, hand, pageKeeper(page));
    if (opened.ok) session.value = opened.value;
    return opened;
  };
  const main = useRef<HTMLElement>(null);
  useEffect(() => (main.current === null ? undefined : keepFocus(main.current)), []);
  const isAside = here.value === "symptoms" || here.value === "settings";
  return (
    // The links are what one presses; this only hears where they lead.
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-static-element-interactions
    <div onClick={follow}>
      <main id="main" ref={main} tabIndex={-1}>
        {isAside ? <Aside screen={here.value} /> : <AtBench id={page.job.id} open={open} />}
        {session.value === null ? <FirstWords page={page} /> : <TakeHome session={session.value} />}
      </main>
      <footer class="foot">
        <p class="foot-ways">
          {isAside ? <a href="#/">Back to the job</a> : null}
          <a href={to.symptoms()}>Ten symptoms</a>
          <a href={to.settings()}>Words, measures, paper</a>
        </p>
        <p>The machine's own manual comes first. Where it differs from what stands here, it is right.</p>
      </footer>
    </div>
  );
}

/** A browser that gives a file no origin follows no link inside it, so the page does it itself. */
function follow(event: MouseEvent): void {
  const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>('a[href^="#/"]') : null;
  if (link !== null) here.value = routeOf(link.hash).screen;
}

function Aside({ screen }: { screen: string }): ComponentChild {
  return screen === "symptoms" ? <Symptoms /> : <Settings isCarried />;
}

/** Before the job opens: what this file is. */
function FirstWords({ page }: { page: Carried }): ComponentChild {
  const { sheet } = page.job;
  return (
    <section class="take-home" aria-label="About this page">
      <p>
        <strong>
          {sheet.bike} · {sheet.circuit}
        </strong>
      </p>
      <LevelWords level={page.level} />
    </section>
  );
}
