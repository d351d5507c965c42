// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

import type { Scene } from "../api/circuits";
import { say } from "../display";
import "./drawing.css";
import { boxOf, hexagon, markTexts, rounded, stepsOf, type ScenePart } from "./geometry";
import { toldOf, TRACE } from "./told";

const WALL = 1.5;
const GAP = 1;
const INSET = 2.2;
const LEAST_FILL = 3.5;
const MIXED_LINE = 0.1;
const OLD_LINE = 0.5;
const GUTTER = 38;
const NO_SHARES: Readonly<Record<string, number>> = {};

interface Props {
  readonly scene: Scene;
  /** Share of old fluid by owner; without it nothing is filled. */
  readonly shares?: Readonly<Record<string, number>>;
  /** Screws in the order of the work. */
  readonly order?: readonly string[];
  /** Owners to point out. */
  readonly highlight?: readonly string[];
}

/** A circuit by height. The server laid it out; here it is only coloured. */
export function SceneView({ scene, shares, order = [], highlight = [] }: Props): ComponentChild {
  const id = useId();
  const steps = stepsOf(order);
  const shareOf = (owner: string): number => (shares ?? NO_SHARES)[owner] ?? 0;
  const texts = markTexts(scene.marks);
  return (
    <svg class="scene" viewBox={`0 0 ${scene.width} ${scene.height}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
      <title id={`${id}-t`}>The circuit by height</title>
      <desc id={`${id}-d`}>{toldOf(scene, shares)}</desc>
      <Patterns id={id} parts={scene.parts} />
      {scene.marks.map((mark, index) => (
        <g key={mark.height_mm}>
          <path class="scene-mark" d={`M${GUTTER + 4} ${mark.y}H${scene.width}`} />
          <text class="scene-soft" x={0} y={mark.y + 4.5}>
            {texts[index]}
          </text>
        </g>
      ))}
      {scene.lines.map((line) => {
        const inside = line.width - 2 * WALL;
        const run = rounded(line.points);
        const pointed = highlight.includes(line.owner);
        return (
          <g key={line.owner} class={pointed ? "scene-pointed" : undefined}>
            <path class="scene-halo" d={run} stroke-width={line.width + 5} />
            <path class="scene-wall" d={run} stroke-width={line.width} />
            <path class="scene-bore" d={run} stroke-width={inside} />
            {shares && <path class="scene-fluid" d={run} stroke={pipeOf(id, shareOf(line.owner))} stroke-width={inside - 2 * GAP} />}
          </g>
        );
      })}
      {scene.parts.map((part, index) => (
        <Part
          key={part.owner}
          part={part}
          clip={`${id}-p${index}`}
          old={`url(#${id}-old)`}
          share={shares && shareOf(part.owner)}
          pointed={highlight.includes(part.owner)}
        />
      ))}
      {scene.screws.map((screw) => {
        const step = steps.get(screw.screw);
        const pointed = highlight.includes(`screw:${screw.screw}`);
        return (
          <g key={screw.screw} class={pointed ? "scene-pointed" : undefined}>
            <polygon class="scene-box" points={hexagon(screw.at)} />
            {step === undefined ? (
              <circle class="scene-ink" cx={screw.at[0]} cy={screw.at[1]} r={2.5} />
            ) : (
              <text class="scene-step" x={screw.at[0]} y={screw.at[1] + 4.8} text-anchor="middle">
                {step}
              </text>
            )}
          </g>
        );
      })}
      {scene.resting.map((place) => (
        <g key={`${place.owner}${place.at.join()}`}>
          <circle class="scene-air" cx={place.at[0] - 4} cy={place.at[1] - 1.5} r={4.5} />
          <circle class="scene-air" cx={place.at[0] + 5} cy={place.at[1] - 4} r={3} />
          <text class="scene-do" x={place.label.at[0]} y={place.label.at[1]} text-anchor={place.label.anchor}>
            {say(place.label.text)}
          </text>
        </g>
      ))}
    </svg>
  );
}

function pipeOf(id: string, share: number): string {
  if (share < MIXED_LINE) return "var(--fluid-new)";
  return `url(#${id}-${share < OLD_LINE ? "mixed" : "old"})`;
}

function Patterns({ id, parts }: { readonly id: string; readonly parts: Scene["parts"] }): ComponentChild {
  return (
    <defs>
      <pattern id={`${id}-old`} width={5} height={5} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect class="scene-old" width={5} height={5} />
        <rect class="scene-hatch" width={2} height={5} />
      </pattern>
      <pattern id={`${id}-mixed`} width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect class="scene-mixed" width={7} height={7} />
        <rect class="scene-hatch" width={1.6} height={7} />
      </pattern>
      {parts.map((part, index) => (
        <clipPath key={part.owner} id={`${id}-p${index}`}>
          <rect {...boxOf(part, INSET)} />
        </clipPath>
      ))}
    </defs>
  );
}

interface PartProps {
  readonly part: ScenePart;
  readonly clip: string;
  readonly old: string;
  readonly share: number | undefined;
  readonly pointed: boolean;
}

function Part({ part, clip, old, share, pointed }: PartProps): ComponentChild {
  const level = Math.max((share ?? 0) * (part.height - 2 * INSET), LEAST_FILL);
  const bottom = part.y + part.height - INSET;
  return (
    <g class={pointed ? "scene-pointed" : undefined}>
      <rect class={part.height_known ? "scene-box" : "scene-box scene-usual"} {...boxOf(part)} />
      {share !== undefined && <rect class="scene-new" {...boxOf(part, INSET)} />}
      {share !== undefined && share >= TRACE && (
        <rect x={part.x} y={bottom - level} width={part.width} height={level} clip-path={`url(#${clip})`} fill={old} />
      )}
      {part.shape === "pot" && (
        <rect class="scene-ink" x={part.x - 3} y={part.y - 3} width={part.width + 6} height={5} rx={1} />
      )}
      <text class="scene-name" x={part.label.at[0]} y={part.label.at[1]} text-anchor={part.label.anchor}>
        {part.label.text}
      </text>
    </g>
  );
}
