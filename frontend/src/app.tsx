// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { signal } from "@preact/signals";
import type { ComponentChild, ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

import { makePlanAhead } from "./api/planAhead";
import { routeOf, to, type Route } from "./routes";
import { Button } from "./ui/Button";
import { LinkButton } from "./ui/LinkButton";
import { Notice } from "./ui/Notice";
import { Screen } from "./ui/Screen";
import { Shell } from "./ui/Shell";
import { Wait } from "./ui/Wait";

const route = signal<Route>(routeOf(location.hash));
window.addEventListener("hashchange", () => {
  route.value = routeOf(location.hash);
});

/** Each screen is fetched when it is first opened, so that the first one comes quickly. */
const screens = {
  machines: () => import("./features/machines").then((feature) => feature.Machines),
  machine: () => import("./features/machine").then((feature) => feature.MachinePage),
  settings: () => import("./features/settings").then((feature) => feature.Settings),
  new: () => import("./features/describe").then((feature) => feature.NewMachine),
  questions: () => import("./features/describe").then((feature) => feature.Questions),
  plan: () => import("./features/plan").then((feature) => feature.Plan),
  kept: () => import("./features/plan").then((feature) => feature.KeptPlan),
  print: () => import("./features/plan").then((feature) => feature.PrintPlan),
  start: () => import("./features/bench").then((feature) => feature.StartJob),
  job: () => import("./features/bench").then((feature) => feature.AtBench),
  jobs: () => import("./features/bench").then((feature) => feature.Jobs),
  symptoms: () => import("./features/bench").then((feature) => feature.Symptoms),
  lever: () => import("./features/lever").then((feature) => feature.LeverTest),
  level: () => import("./features/level").then((feature) => feature.Level),
  record: () => import("./features/record").then((feature) => feature.RecordPage),
  phones: () => import("./features/phones").then((feature) => feature.Phones),
};

/** What the first screen needs is asked for at once, and not only when the frame around it stands. */
function hurry(first: Route): void {
  if (first.screen === "plan") makePlanAhead(first.id, first.circuit, location.hash);
  if (first.screen !== "nowhere") screens[first.screen]().catch(() => undefined);
}

hurry(route.value);

export function App(): ComponentChild {
  const here = route.value;
  return (
    <Shell here={here.screen}>
      {here.screen === "nowhere" ? <Nowhere /> : <Lazy key={keyOf(here)} here={here} />}
    </Shell>
  );
}

type Known = Exclude<Route, { screen: "nowhere" }>;

function keyOf(here: Known): string {
  return JSON.stringify(here);
}

function Lazy({ here }: { here: Known }): ComponentChild {
  const [loaded, setLoaded] = useState<ComponentType<Known> | "lost" | null>(null);
  const fetchScreen = (): void => {
    setLoaded(null);
    const load: () => Promise<unknown> = screens[here.screen];
    load().then(
      // Each screen takes the fields of its own route.
      (found) => setLoaded(() => found as ComponentType<Known>),
      () => setLoaded("lost"),
    );
  };
  useEffect(fetchScreen, [here.screen]);
  if (loaded === null) return <Wait doing="Opening the page" />;
  if (loaded === "lost") {
    return (
      <Screen title="This page could not be opened">
        <Notice kind="stop" title="The server did not send it">
          <p>Start firmlever again in its terminal window, then try again.</p>
          {/* A module that failed to load stays failed until the page is loaded afresh. */}
          <Button onClick={() => location.reload()}>Try again</Button>
        </Notice>
      </Screen>
    );
  }
  const Found = loaded;
  return <Found {...here} />;
}

function Nowhere(): ComponentChild {
  return (
    <Screen title="There is no such page">
      <p>The address may be cut short, or from an older version.</p>
      <LinkButton href={to.machines()}>To the machines</LinkButton>
    </Screen>
  );
}
