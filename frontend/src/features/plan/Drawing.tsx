// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import type { Scene } from "../../api/circuits";
import type { FlushPlan } from "../../api/plan";
import { SceneView } from "../../drawing/SceneView";
import { partPerCent } from "./amounts";
import { spoken } from "./sentence";

const TRACE = 0.01;

/** The circuit by height, coloured by what stays old (a dry one is empty), its screws in the order of the work. */
export function Drawing({ plan, scene }: { plan: FlushPlan; scene: Scene }): ComponentChild {
  const old = plan.left_old.parts;
  const shares = Object.fromEntries(Object.entries(old).map(([owner, band]) => [owner, band.p50]));
  const holding = scene.parts.flatMap(({ owner }) => {
    const band = old[owner];
    return band !== undefined && band.p50 >= TRACE ? [{ owner, band }] : [];
  });
  return (
    <figure class="plan-drawing">
      <SceneView scene={scene} {...(plan.fill ? {} : { shares })} order={plan.points.map((point) => point.at)} />
      <figcaption class="plan-drawing-words">
        <Key hasFluid={plan.fill === null} hasUsual={scene.parts.some((part) => !part.height_known)} />
        {holding.length > 0 ? (
          <p class="not-printed">
            Old fluid in the{" "}
            {holding.map(({ owner, band }) => `${spoken(owner, scene)} ${partPerCent(band)}`).join(", ")}.
          </p>
        ) : null}
      </figcaption>
    </figure>
  );
}

function Key({ hasFluid, hasUsual }: { hasFluid: boolean; hasUsual: boolean }): ComponentChild {
  return (
    <ul class="key">
      {hasFluid ? <FluidKey /> : null}
      <li>
        <svg class="key-mark" viewBox="0 0 24 16" aria-hidden="true">
          <polygon class="key-screw" points="12,1 18,4.5 18,11.5 12,15 6,11.5 6,4.5" />
        </svg>
        screw, in order
      </li>
      {hasUsual ? (
        <li>
          <svg class="key-mark" viewBox="0 0 24 16" aria-hidden="true">
            <rect class="key-usual" x="1" y="1" width="22" height="14" />
          </svg>
          usual height, not measured
        </li>
      ) : null}
    </ul>
  );
}

function FluidKey(): ComponentChild {
  const id = useId();
  return (
    <>
      <li>
        <svg class="key-mark" viewBox="0 0 24 16" aria-hidden="true">
          <defs>
            <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect class="tone-old" width="5" height="5" />
              <rect class="key-hatch" width="2" height="5" />
            </pattern>
          </defs>
          <rect x="1" y="1" width="22" height="14" fill={`url(#${id})`} />
        </svg>
        stays old
      </li>
      <li>
        <svg class="key-mark" viewBox="0 0 24 16" aria-hidden="true">
          <rect x="1" y="1" width="22" height="14" fill="var(--fluid-new)" />
        </svg>
        new
      </li>
    </>
  );
}
