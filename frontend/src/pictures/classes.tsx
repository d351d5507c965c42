// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Kinds of machine as the few points that tell them apart: wheels, grip, seat and footrest. */
import type { ComponentChild } from "preact";

import type { BikeClass } from "../api/shapes";
import { Body, Ink, Mark, Round, Sheet, Thin } from "./strokes";

type Spot = readonly [x: number, y: number];

interface Stance {
  readonly title: string;
  readonly front: readonly [x: number, radius: number];
  readonly rear: readonly [x: number, radius: number];
  readonly grip: Spot;
  readonly seat: Spot;
  readonly foot: Spot;
}

const GROUND = 122;

const STANCES: Readonly<Record<BikeClass, Stance>> = {
  small: {
    title: "Small wheels close together, all of it low and narrow",
    front: [122, 19], rear: [58, 19], grip: [104, 58], seat: [72, 70], foot: [86, 104],
  },
  commuter: {
    title: "Upright seat, plain wheels of one size",
    front: [136, 24], rear: [46, 24], grip: [114, 46], seat: [72, 62], foot: [86, 102],
  },
  scooter: {
    title: "Small wheels and a flat floor for the feet",
    front: [142, 16], rear: [42, 17], grip: [122, 42], seat: [64, 66], foot: [102, 108],
  },
  naked: {
    title: "Grips a little forward, feet a little back",
    front: [138, 25], rear: [46, 25], grip: [118, 48], seat: [72, 60], foot: [78, 98],
  },
  sport: {
    title: "Low grips far forward, high seat, feet high and back",
    front: [138, 25], rear: [46, 25], grip: [124, 62], seat: [70, 54], foot: [68, 92],
  },
  tourer: {
    title: "Long, an upright seat and grips drawn back",
    front: [146, 25], rear: [38, 25], grip: [114, 44], seat: [70, 62], foot: [86, 102],
  },
  adventure: {
    title: "A large front wheel, high grips and a high seat",
    front: [142, 28], rear: [42, 25], grip: [116, 32], seat: [72, 50], foot: [82, 96],
  },
  cruiser: {
    title: "Long and low, the feet far forward",
    front: [148, 24], rear: [30, 24], grip: [100, 50], seat: [58, 80], foot: [112, 104],
  },
  "off-road": {
    title: "Tall and thin, a large front wheel, the seat far above the ground",
    front: [138, 29], rear: [46, 26], grip: [112, 28], seat: [72, 40], foot: [82, 92],
  },
};

/** The stance of a class, without the looks of any machine. */
export function ClassStance({ of }: { of: BikeClass }): ComponentChild {
  const { title, front, rear, grip, seat, foot } = STANCES[of];
  return (
    <Sheet title={title}>
      <Thin d={`M4 ${GROUND}H172`} />
      <Round x={front[0]} y={GROUND - front[1]} r={front[1]} />
      <Round x={rear[0]} y={GROUND - rear[1]} r={rear[1]} />
      <Ink d={`M${grip[0]} ${grip[1]}L${front[0]} ${GROUND - front[1]}`} />
      <Body d={of === "scooter" ? steppedThrough(STANCES[of]) : straddled(STANCES[of])} />
      <Ink d={`M${grip[0] - 10} ${grip[1]}H${grip[0] + 4}M${foot[0] - 5} ${foot[1]}H${foot[0] + 7}`} />
      <Mark d={`M${grip[0] - 9} ${grip[1]}H${grip[0] - 3}M${seat[0] - 14} ${seat[1] - 1}H${seat[0] + 10}M${foot[0] - 4} ${foot[1]}H${foot[0] + 4}`} />
    </Sheet>
  );
}

/** Seat, tank and engine in one outline, hung between the head of the fork and the rear axle. */
function straddled({ front, rear, grip, seat, foot }: Stance): string {
  const head = along(grip, [front[0], GROUND - front[1]], 0.28);
  const engine = (front[0] + rear[0]) / 2 + 2;
  const floor = Math.min(foot[1] + 8, GROUND - 8);
  const tank = Math.min(seat[1], head[1]) - 9;
  return (
    `M${seat[0] - 24} ${seat[1] - 5}L${seat[0] - 12} ${seat[1] + 1}H${seat[0] + 12}` +
    `Q${(seat[0] + head[0]) / 2 + 4} ${tank} ${head[0]} ${head[1]}` +
    `L${engine + 20} ${floor - 24}V${floor - 6}Q${engine + 20} ${floor} ${engine + 14} ${floor}` +
    `H${engine - 14}Q${engine - 20} ${floor} ${engine - 20} ${floor - 6}` +
    `L${rear[0] + 3} ${GROUND - rear[1] + 3}L${rear[0]} ${GROUND - rear[1] - 3}` +
    `L${engine - 18} ${floor - 20}L${seat[0] - 10} ${seat[1] + 10}Z`
  );
}

/** A shield in front, a flat floor, and a box under the seat. */
function steppedThrough({ front, rear, grip, seat, foot }: Stance): string {
  const head = along(grip, [front[0], GROUND - front[1]], 0.2);
  const floor = foot[1] + 4;
  return (
    `M${head[0]} ${head[1]}L${front[0] - 18} ${floor - 16}L${front[0] - 24} ${floor - 6}H${seat[0] + 22}` +
    `L${seat[0] + 16} ${seat[1]}H${seat[0] - 20}L${rear[0] - 12} ${seat[1] + 8}L${rear[0] - 6} ${GROUND - rear[1]}` +
    `H${rear[0] + 14}L${seat[0] + 6} ${floor + 4}H${front[0] - 24}L${front[0] - 10} ${floor - 18}Z`
  );
}

function along(from: Spot, to: Spot, share: number): Spot {
  return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
}
