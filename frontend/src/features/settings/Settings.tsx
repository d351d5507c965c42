// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { bandAmount, measures, say, theme, words } from "../../display";
import { to } from "../../routes";
import { Choice } from "../../ui/Choice";
import { LinkButton } from "../../ui/LinkButton";
import { Screen } from "../../ui/Screen";
import "./settings.css";

const EXAMPLE = { p05: 67, p50: 73, p95: 80 };

interface Props {
  /** On a carried page there is nothing to pair with. */
  readonly isCarried?: boolean;
}

/** What this browser shows; nothing here changes a plan. */
export function Settings({ isCarried = false }: Props): ComponentChild {
  return (
    <Screen
      title="Settings"
      lead="They change what this browser shows, never what a plan says. They are kept here at once."
    >
      <div class="settings">
        <Choice
          legend="Whose words are shown?"
          value={words.value}
          onChange={(chosen) => (words.value = chosen)}
          options={[
            { value: "uk", label: "British", hint: "spanner, bleed nipple, disc" },
            { value: "us", label: "American", hint: "wrench, bleeder screw, rotor" },
          ]}
        />
        <Choice
          legend="Which measures are shown?"
          value={measures.value}
          onChange={(chosen) => (measures.value = chosen)}
          options={[
            { value: "metric", label: "Metric", hint: "mm, ml, kg, °C" },
            { value: "imperial", label: "Imperial", hint: "in, fl oz, lb, °F" },
          ]}
        />
        <Choice
          legend="Paper or ink?"
          value={theme.value}
          onChange={(chosen) => (theme.value = chosen)}
          options={[
            { value: "as the device", label: "As the device has it" },
            { value: "light", label: "Paper", hint: "ink on paper" },
            { value: "dark", label: "Ink", hint: "paper on ink" },
          ]}
        />
      </div>
      <p role="status">
        So a line of a plan reads:{" "}
        <strong>
          {say("8 mm ring spanner on the bleed nipple")}, {bandAmount(EXAMPLE, "ml")}
        </strong>
      </p>
      <p class="soft">
        {say("Circuit files stay in millimetres and millilitres whatever is shown, and so do spanners.")}
      </p>
      {isCarried ? null : (
        <div class="row">
          <LinkButton href={to.phones()}>Phones: pair one, or unpair it</LinkButton>
        </div>
      )}
    </Screen>
  );
}
