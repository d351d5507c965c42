// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useId } from "preact/hooks";

import "./pictures.css";

/** Every picture stands on a sheet of four by three fields of 44 units. */
export const FIELD = 44;
export const WIDTH = 4 * FIELD;
export const HEIGHT = 3 * FIELD;

/** The sheet of a picture; its title is what a screen reader says. */
export function Sheet({ title, children }: { title: string; children: ComponentChildren }): ComponentChild {
  const id = useId();
  return (
    <svg class="picture" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-labelledby={id}>
      <title id={id}>{title}</title>
      {children}
    </svg>
  );
}

/** An outline in ink. */
export function Ink({ d }: { d: string }): ComponentChild {
  return <path class="picture-ink" d={d} />;
}

/** An outline in ink with paper inside, so that it hides what is behind it. */
export function Body({ d }: { d: string }): ComponentChild {
  return <path class="picture-body" d={d} />;
}

/** A thin line: an axis, an edge behind, the ground. */
export function Thin({ d }: { d: string }): ComponentChild {
  return <path class="picture-thin" d={d} />;
}

/** Where something was, or will be. */
export function Dashed({ d }: { d: string }): ComponentChild {
  return <path class="picture-thin picture-dashed" d={d} />;
}

/** New fluid. */
export function Fluid({ d }: { d: string }): ComponentChild {
  return <path class="picture-fluid" d={d} />;
}

const HATCH_STEP = 9;

/** Old fluid: dark and hatched, never by colour alone. */
export function Old(box: { x: number; y: number; width: number; height: number }): ComponentChild {
  const { x, y, width, height } = box;
  const lines: string[] = [];
  for (let start = -height + HATCH_STEP; start < width; start += HATCH_STEP) {
    const [left, right] = [Math.max(start, 0), Math.min(start + height, width)];
    lines.push(`M${x + left} ${y + height - (left - start)}L${x + right} ${y + height - (right - start)}`);
  }
  return (
    <g>
      <rect class="picture-old" x={x} y={y} width={width} height={height} />
      <path class="picture-hatch" d={lines.join("")} />
    </g>
  );
}

/** A hose: two edges with paper between. */
export function Tube({ d }: { d: string }): ComponentChild {
  return (
    <g>
      <path class="picture-tube" d={d} />
      <path class="picture-tube-inside" d={d} />
    </g>
  );
}

/** Friction material, solid metal: a tone of the ink. */
export function Solid({ d }: { d: string }): ComponentChild {
  return <path class="picture-solid" d={d} />;
}

/** A round outline with paper inside. */
export function Round({ x, y, r }: { x: number; y: number; r: number }): ComponentChild {
  return <circle class="picture-body" cx={x} cy={y} r={r} />;
}

/** What to look at, in the colour of "do this now". */
export function Mark({ d }: { d: string }): ComponentChild {
  return <path class="picture-mark" d={d} />;
}

/** The way of the fluid, drawn on fluid. */
export function Flow({ d }: { d: string }): ComponentChild {
  return <path class="picture-flow" d={d} />;
}

type Spot = readonly [x: number, y: number];

const HEAD_LENGTH = 7;
const HEAD_HALF = 3.5;
const TICK_HALF = 7;

function head([x, y]: Spot, [dx, dy]: Spot): string {
  const [bx, by] = [x - dx * HEAD_LENGTH, y - dy * HEAD_LENGTH];
  return `M${bx - dy * HEAD_HALF} ${by + dx * HEAD_HALF}L${x} ${y}L${bx + dy * HEAD_HALF} ${by - dx * HEAD_HALF}`;
}

function tick([x, y]: Spot, [dx, dy]: Spot): string {
  return `M${x - dy * TICK_HALF} ${y + dx * TICK_HALF}L${x + dy * TICK_HALF} ${y - dx * TICK_HALF}`;
}

/** From here to there: the length that is asked for. */
export function Measure({ from, to }: { from: Spot; to: Spot }): ComponentChild {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  const along: Spot = [dx / length, dy / length];
  const back: Spot = [-along[0], -along[1]];
  const d = `M${from[0]} ${from[1]}L${to[0]} ${to[1]}${head(to, along)}${head(from, back)}${tick(to, along)}${tick(from, along)}`;
  return <Mark d={d} />;
}

/** An arrow to the thing that is meant. */
export function Arrow({ from, to }: { from: Spot; to: Spot }): ComponentChild {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  return <Mark d={`M${from[0]} ${from[1]}L${to[0]} ${to[1]}${head(to, [dx / length, dy / length])}`} />;
}

interface LetteringProps {
  readonly x: number;
  readonly y: number;
  readonly children: string;
  /** Cast or printed on the part, and to be read there. */
  readonly meant?: boolean;
}

/** A few letters; the title says everything they say. */
export function Lettering({ x, y, children, meant = false }: LetteringProps): ComponentChild {
  return (
    <text class={meant ? "picture-letters picture-letters-meant" : "picture-letters"} x={x} y={y}>
      {children}
    </text>
  );
}
