// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId, useMemo } from "preact/hooks";

import type { PlanPoint } from "../../api/plan";
import { metricOf, say, shown, unit } from "../../display";
import { plain } from "../../lib/figures";
import { Table } from "../../ui/Table";
import { AsTable } from "./AsTable";
import { wholeAmount } from "./amounts";
import { layerPath, layersOf, NEW, widestPlace, yOf, type Box, type Layers } from "../../drawing/layers";
import { fillOf, Patterns } from "../../drawing/patterns";
import { ticks } from "./scale";

const WIDTH = 288;
const BOX: Box = { x: 44, y: 24, width: 240, height: 272 };
const BOTTOM = BOX.y + BOX.height;
const LETTER = 7;
const ROOM = 12;

/** The millilitres about to come out of a screw, by where they are now; the first at the bottom. */
export function StripColumn({ point }: { readonly point: PlanPoint }): ComponentChild {
  const id = useId();
  const layers = useMemo(() => layersOf(point.strip), [point.strip]);
  const words = layers.origins.map((origin) => (origin === NEW ? "new" : origin));
  return (
    <figure class="graph">
      <figcaption class="graph-title">Where each millilitre comes from</figcaption>
      <svg class="graph-picture" viewBox={`0 0 ${WIDTH} ${BOTTOM + 24}`} role="img" aria-label={stripWords(layers)}>
        <Patterns id={id} origins={layers.origins} />
        <text class="graph-words" x={BOX.x} y={BOX.y - 8}>
          comes out last
        </text>
        {layers.origins.map((origin, place) => (
          <path class="layer" key={origin} d={layerPath(layers, place, BOX)} fill={fillOf(id, origin, place)} />
        ))}
        <rect class="graph-frame" x={BOX.x} y={BOX.y} width={BOX.width} height={BOX.height} />
        <Scale layers={layers} />
        {words.map((word, place) => (
          <LayerWord key={word} word={say(word, words)} layers={layers} place={place} />
        ))}
        <path class="graph-arrow" d={`M${BOX.x} ${BOTTOM + 6}h12l-6 10z`} />
        <text class="graph-words" x={BOX.x + 20} y={BOTTOM + 16}>
          comes out first
        </text>
      </svg>
      <ul class="key">
        {layers.origins.map((origin, place) => (
          <li key={origin}>
            <svg class="key-mark" viewBox="0 0 24 16" aria-hidden="true">
              <rect x="1" y="1" width="22" height="14" fill={fillOf(id, origin, place)} />
            </svg>
            <span>{say(origin, words)}</span> <span class="soft">{inAll(layers.ml[place] ?? 0)}</span>
          </li>
        ))}
      </ul>
      <AsTable table={() => <StripTable layers={layers} words={words} />} />
    </figure>
  );
}

function Scale({ layers }: { layers: Layers }): ComponentChild {
  return (
    <>
      {ticks(shown(layers.totalMl, "ml")).map((value) => {
        const y = yOf(layers, metricOf(value, "ml"), BOX);
        return (
          <g key={value}>
            <path class="graph-tick" d={`M${BOX.x - 6} ${y}h6`} />
            <text class="graph-figure" x={BOX.x - 8} y={y + 4}>
              {plain(value)}
            </text>
          </g>
        );
      })}
      <text class="graph-figure" x={BOX.x - 8} y={BOX.y - 8}>
        {unit("ml")}
      </text>
    </>
  );
}

/** The name of a layer on it, where it is wide enough to carry it. */
function LayerWord(props: { word: string; layers: Layers; place: number }): ComponentChild {
  const { word, layers, place } = props;
  const spot = widestPlace(layers, place, BOX);
  if (spot.width < word.length * LETTER + 4) return null;
  const y = Math.min(Math.max(spot.y, BOX.y + ROOM), BOTTOM - ROOM / 2);
  return (
    <text class="layer-word" x={spot.x} y={y}>
      {word}
    </text>
  );
}

function stripWords(layers: Layers): string {
  const parts = layers.origins.map((origin, place) => `${origin} ${inAll(layers.ml[place] ?? 0)}`);
  return `Of ${inAll(layers.totalMl)} that come out: ${parts.join(", ")}. The table below tells it step by step.`;
}

function inAll(ml: number): string {
  return ml < 0.5 ? `under ${wholeAmount(1)}` : wholeAmount(ml);
}

function StripTable({ layers, words }: { layers: Layers; words: readonly string[] }): ComponentChild {
  const every = Math.max(1, Math.ceil(layers.slices.length / 10));
  const rows = layers.slices.filter((_, place) => place % every === 0 || place === layers.slices.length - 1);
  return (
    <Table
      caption="Per cent of each millilitre by where it comes from"
      columns={[
        { head: `after ${unit("ml")}` },
        ...words.map((word) => ({ head: say(word, words), isFigure: true })),
      ]}
      rows={rows.map((slice) => [
        plain(Number(shown(slice.from, "ml").toPrecision(3))),
        ...slice.shares.map((share) => String(Math.round(100 * share))),
      ])}
    />
  );
}
