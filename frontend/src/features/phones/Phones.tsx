// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { getServing, type Serving } from "../../api/serving";
import { say } from "../../display";
import { to } from "../../routes";
import { Load } from "../../ui/Load";
import { Notice } from "../../ui/Notice";
import { Screen } from "../../ui/Screen";
import { useResource } from "../../ui/resource";
import { Workshop } from "./Workshop";
import "./phones.css";

const HERE = "this computer";

/** Pair phones, see which are paired, take one off; and what this way of serving lacks. */
export function Phones(): ComponentChild {
  const serving = useResource((signal) => getServing(signal), []);
  return (
    <Screen
      title="Phones"
      lead="A phone at the bench is paired once, with a code that this laptop shows."
      back={{ href: to.settings(), name: "Settings" }}
    >
      <Load of={serving} doing="Asking how this page is served">
        {(found) => (
          <>
            {found.level === HERE ? <Workshop address={found.lan_address} /> : <OnlyThere />}
            <Levels serving={found} />
          </>
        )}
      </Load>
    </Screen>
  );
}

/** A phone neither pairs another nor takes one off. */
export function OnlyThere(): ComponentChild {
  return (
    <Notice kind="note" title="Phones are paired and taken off on the laptop">
      <p>Open this page there, at the first address that firmlever prints when it starts.</p>
    </Notice>
  );
}

/** Every way the pages come to somebody, the one in use first. */
function Levels({ serving }: { serving: Serving }): ComponentChild {
  const isHere = ({ name }: { readonly name: string }): boolean => name === serving.level;
  const levels = [...serving.levels].sort((one, other) => Number(isHere(other)) - Number(isHere(one)));
  return (
    <section class="phones-part" aria-labelledby="levels">
      <h2 id="levels">What each way lacks</h2>
      <ul class="levels">
        {levels.map((level) => (
          <li key={level.name} class="level">
            <p>
              <strong>{say(level.words)}</strong>
              {isHere(level) ? <span class="level-here">This page</span> : null}
            </p>
            {level.lacks.length === 0 ? (
              <p class="soft">It lacks nothing.</p>
            ) : (
              <ul class="lacks">
                {level.lacks.map((lack) => (
                  <li key={lack.code}>{say(lack.words)}</li>
                ))}
              </ul>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
