// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { Outline } from "../../api/machines";
import { previewOutline } from "../../api/preview";
import { say } from "../../display";
import { SceneView } from "../../drawing/SceneView";
import { Load } from "../../ui/Load";
import { useResource } from "../../ui/resource";

/** Nothing but a kind is known of it, so that it is drawn as is usual. */
const USUAL: Outline = {
  name: "usual",
  bike_class: "naked",
  front_discs: null,
  front_layout: null,
  fork: null,
  abs_unit: null,
  rear_disc: null,
  hydraulic_clutch: null,
  fluid: null,
};

const STEPS: readonly (readonly [what: string, more: string])[] = [
  ["Say what kind of machine it is.", "Looking at it is enough; whatever you cannot tell stays open."],
  ["Measure what you like.", "What helps the plan most is asked first, with a drawing of where to put the ruler."],
  ["Read the plan.", "Millilitres, strokes and top-ups for each bleed nipple, and what stays old."],
];

/** Where there is no machine at all to show it on: the three steps, and a usual brake by height. */
export function HowItGoes(): ComponentChild {
  const drawn = useResource((signal) => previewOutline(USUAL, signal), []);
  return (
    <>
      <ol class="how-it-goes">
        {STEPS.map(([what, more], position) => (
          <li key={what}>
            <span class="how-it-goes-number" aria-hidden="true">
              {position + 1}
            </span>
            <span>
              <strong>{what}</strong> {say(more)}
            </span>
          </li>
        ))}
      </ol>
      <figure class="welcome-drawing">
        <Load of={drawn} doing="Drawing a usual brake">
          {({ scenes }) => (
            <>
              {scenes.slice(0, 1).map(({ circuit, scene }) => (
                <SceneView key={circuit} scene={scene} />
              ))}
              <figcaption class="soft">
                A usual front brake by height. Air climbs to its tops; in its wide places the flow passes old fluid by.
                Yours is drawn as you answer.
              </figcaption>
            </>
          )}
        </Load>
      </figure>
    </>
  );
}
