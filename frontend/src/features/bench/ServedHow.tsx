// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { getServing, type Level } from "../../api/serving";
import { say } from "../../display";
import { useResource } from "../../ui/resource";

/** How this page came here, and what it cannot do for that; nothing while nobody answers. */
export function ServedHow(): ComponentChild {
  const { value } = useResource((signal) => getServing(signal), []);
  const level = value?.levels.find((one) => one.name === value.level);
  return level === undefined ? null : <LevelWords level={level} />;
}

/** A way of serving in words, and what it lacks. */
export function LevelWords({ level }: { readonly level: Level }): ComponentChild {
  return (
    <>
      <p>{say(level.words)}</p>
      {level.lacks.length > 0 ? (
        <ul class="step-list">
          {level.lacks.map((one) => (
            <li key={one.code}>{say(one.words)}</li>
          ))}
        </ul>
      ) : null}
    </>
  );
}
