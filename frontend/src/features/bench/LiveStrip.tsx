// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId, useMemo } from "preact/hooks";

import type { SheetPoint } from "../../bench/sheet";
import type { Turn } from "../../bench/state";
import { say } from "../../display";
import { layerPath, layersOf, NEW, type Box, type Layers } from "../../drawing/layers";
import { fillOf, Patterns } from "../../drawing/patterns";

const WIDTH = 92;
const HEIGHT = 206;
const PX_PER_ML = 5;
const BOX = { x: 50, width: 38 };
const EXIT = 188;
const LINE = 13;
const LEAST_STRETCH = 16;

interface Props {
  readonly point: SheetPoint;
  readonly turn: Turn;
}

/** The millilitres about to come out, sliding down as fluid moves; the lowest comes next. */
export function LiveStrip({ point, turn }: Props): ComponentChild {
  const id = useId();
  const layers = useMemo(() => layersOf(point.strip), [point.strip]);
  const height = layers.totalMl * PX_PER_ML;
  // Drawn once: at every stroke only the slide moves.
  const drawing = useMemo(() => <Layered id={id} layers={layers} height={height} />, [id, layers, height]);
  const slide = EXIT - height + turn.out_ml.p50 * PX_PER_ML;
  const spread = (turn.out_ml.p95 - turn.out_ml.p05) * PX_PER_ML;
  return (
    <section class="strip" aria-label="Coming out next">
      <p class="strip-words">coming next</p>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} class="strip-picture" role="img" aria-label={nextWords(layers, turn)}>
        <clipPath id={`${id}-window`}>
          <rect x="0" y="4" width={WIDTH} height={EXIT - 4} />
        </clipPath>
        <g clip-path={`url(#${id}-window)`}>
          <rect x={BOX.x} y="4" width={BOX.width} height={EXIT - 4} fill="var(--fluid-new)" />
          <g class="strip-slide" style={{ transform: `translateY(${Math.round(slide * 10) / 10}px)` }}>
            {drawing}
          </g>
        </g>
        {inSight(stretches(layers), turn.out_ml.p50).map((one) => (
          <Name key={one.from} name={one.name} y={EXIT - ((one.from + one.to) / 2) * PX_PER_ML} />
        ))}
        <rect class="strip-wall" x={BOX.x} y="4" width={BOX.width} height={EXIT - 4} />
        <path class="strip-exit" d={`M${BOX.x - 6} ${EXIT}h${BOX.width + 10}`} />
        <path class="strip-arrow" d={`M${BOX.x + 9} ${EXIT + 5}h20l-10 12z`} />
        <path class="strip-spread" d={`M${BOX.x - 4} ${EXIT}v${-Math.max(2, spread / 2)}`} />
      </svg>
    </section>
  );
}

/** All the millilitres of a screw, the first at the bottom; names stand beside it, where they are seen whole. */
function Layered({ id, layers, height }: { id: string; layers: Layers; height: number }): ComponentChild {
  const box: Box = { ...BOX, y: 0, height };
  return (
    <>
      <Patterns id={id} origins={layers.origins} />
      {layers.origins.map((origin, place) => (
        <path key={origin} class="layer" d={layerPath(layers, place, box)} fill={fillOf(id, origin, place)} />
      ))}
    </>
  );
}

function Name({ name, y }: { name: string; y: number }): ComponentChild {
  const words = say(name, [name]).split(" ");
  return (
    <text class="strip-name" x={BOX.x - 8} y={y - ((words.length - 1) * LINE) / 2 + 4}>
      {words.map((word, place) => (
        <tspan key={place} x={BOX.x - 8} dy={place === 0 ? 0 : LINE}>
          {word}
        </tspan>
      ))}
    </text>
  );
}

interface Stretch {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/** What of each stretch stands in the window, in millilitres above the exit, where its name fits beside it. */
export function inSight(all: readonly Stretch[], outMl: number): readonly Stretch[] {
  const windowMl = (EXIT - 4) / PX_PER_ML;
  return all
    .map(({ name, from, to }) => ({ name, from: Math.max(0, from - outMl), to: Math.min(windowMl, to - outMl) }))
    .filter(({ name, from, to }) => (to - from) * PX_PER_ML >= LEAST_STRETCH + (name.split(" ").length - 1) * LINE);
}

/** Where one origin is the largest, stretch by stretch. */
export function stretches(layers: Layers): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const slice of layers.slices) {
    const most = slice.shares.reduce((best, share, place) => (share > (slice.shares[best] ?? 0) ? place : best), 0);
    const name = layers.origins[most] ?? NEW;
    const last = found.at(-1);
    if (last?.name === name) found[found.length - 1] = { ...last, to: slice.to };
    else found.push({ name, from: slice.from, to: slice.to });
  }
  return found;
}

function nextWords(layers: Layers, turn: Turn): string {
  const slice = layers.slices.find((one) => one.to > turn.out_ml.p50);
  if (slice === undefined) return "Next comes new fluid.";
  const parts = layers.origins
    .map((name, place) => ({ name, share: Math.round(100 * (slice.shares[place] ?? 0)) }))
    .filter((one) => one.share >= 5)
    .sort((one, other) => other.share - one.share);
  return `Next comes ${parts.map((one) => `${one.share} % from ${one.name === NEW ? "new fluid" : one.name}`).join(", ")}.`;
}
