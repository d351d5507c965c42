// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Small drawings of what to measure and where to look. */
import type { ComponentChild, FunctionComponent } from "preact";

import { Bore, Cover, Leverage, Master, Pot, Stroke } from "./control";
import {
  AbsUnit,
  BleedScrew,
  Caliper,
  Height,
  LineBore,
  LineLength,
  Pads,
  Pistons,
  Pocket,
  Volume,
} from "./wheel";

export { ClassStance } from "./classes";
export * as looks from "./looks";

/** By the names that the server gives to questions. */
const BY_NAME: ReadonlyMap<string, FunctionComponent> = new Map<string, FunctionComponent>([
  ["pot", Pot],
  ["master", Master],
  ["bore", Bore],
  ["stroke", Stroke],
  ["leverage", Leverage],
  ["abs", AbsUnit],
  ["caliper", Caliper],
  ["pistons", Pistons],
  ["pads", Pads],
  ["pocket", Pocket],
  ["volume", Volume],
  ["line length", LineLength],
  ["line bore", LineBore],
  ["height", Height],
  ["screw", BleedScrew],
  ["fluid", Cover],
]);

/** The drawing of this name, or nothing where there is none. */
export function Picture({ name }: { name: string }): ComponentChild {
  const Drawing = BY_NAME.get(name);
  return Drawing === undefined ? null : <Drawing />;
}

/** Whether there is a drawing of this name. */
export function hasPicture(name: string): boolean {
  return BY_NAME.has(name);
}
