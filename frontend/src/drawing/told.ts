// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A drawing in words, in the words and measures that were chosen. */
import type { Scene } from "../api/circuits";
import { measures, say, shown, unit } from "../display";

const MM_PER_M = 1000;
/** Below this share nobody speaks of old fluid. */
export const TRACE = 0.01;

const HEIGHT = /\b(\d+(?:\.\d+)?) m\b/g;

/** What a screen reader says of the picture; names that people gave stay as they are. */
export function toldOf(scene: Scene, shares?: Readonly<Record<string, number>>): string {
  const names = namesIn(scene);
  const told = scene.words.map((sentence) => say(withHeights(sentence), names));
  return [...told, ...(shares ? [oldWords(scene, shares)] : [])].join(" ");
}

/** The names of parts, which no other set of words may touch. */
export function namesIn(scene: Scene): readonly string[] {
  return scene.parts.map((part) => part.owner);
}

/** A height above the ground as a mark shows it: short metres, or whole inches. */
export function heightText(height_mm: number, isLabelled: boolean): string {
  const isShort = height_mm % 100 === 0;
  if (measures.value === "imperial") {
    return isLabelled ? `${inches(height_mm)} ${unit("mm")}` : inches(height_mm);
  }
  const metres = (height_mm / MM_PER_M).toFixed(isShort ? 1 : 2);
  return isLabelled ? `${metres} m` : metres;
}

function withHeights(sentence: string): string {
  if (measures.value === "metric") return sentence;
  return sentence.replace(HEIGHT, (_, metres: string) => `${inches(Number(metres) * MM_PER_M)} ${unit("mm")}`);
}

function inches(height_mm: number): string {
  return shown(height_mm, "mm").toFixed(0);
}

function oldWords(scene: Scene, shares: Readonly<Record<string, number>>): string {
  const old = namesIn(scene)
    .map((owner) => ({ owner, share: shares[owner] ?? 0 }))
    .filter(({ share }) => share >= TRACE)
    .map(({ owner, share }) => `${Math.round(100 * share)} % of the ${owner}`);
  return old.length > 0 ? `Old fluid stays in ${old.join(", ")}.` : "No part keeps old fluid.";
}
