// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What this person chose to see: words, measures, theme. Nothing of it changes a plan. */
import { effect, signal } from "@preact/signals";

import { dayWords, momentWords, sinceWords } from "./lib/dates";
import { bandMiddle, span, type Band } from "./lib/figures";
import { recall, remember } from "./lib/storage";
import { fromShown, toShown, unitLabel, type Measures, type Scale } from "./lib/units";
import { oneOf } from "./lib/validate";
import { speak, type WordSet } from "./lib/words";

export type Theme = "as the device" | "light" | "dark";

export const words = signal<WordSet>(recall("words", oneOf("uk", "us"), "uk"));
export const measures = signal<Measures>(
  recall("measures", oneOf("metric", "imperial"), "metric"),
);
export const theme = signal<Theme>(
  recall("theme", oneOf("as the device", "light", "dark"), "as the device"),
);

/** What the hanging scale shows; forces are kept and sent in newtons. */
export const scale = signal<Scale>(recall("scale", oneOf("N", "kg", "lb"), "N"));

/** Keep the page and the browser's memory in step with what was chosen. */
export function followDisplay(): void {
  effect(() => {
    document.documentElement.lang = language();
    remember("words", words.value);
  });
  effect(() => void remember("measures", measures.value));
  effect(() => void remember("scale", scale.value));
  effect(() => {
    if (theme.value === "as the device") delete document.documentElement.dataset["theme"];
    else document.documentElement.dataset["theme"] = theme.value;
    remember("theme", theme.value);
  });
}

function language(): "en-US" | "en-GB" {
  return words.value === "us" ? "en-US" : "en-GB";
}

/** A day in the chosen words. */
export function dayShown(iso: string): string {
  return dayWords(iso, language());
}

/** A day with its time in the chosen words. */
export function momentShown(iso: string): string {
  return momentWords(iso, language());
}

/** How long ago something was, in the chosen words. */
export function sinceShown(iso: string): string {
  return sinceWords(iso, Date.now(), language());
}

/** A text in the chosen words; names that people gave go in `keep`. */
export function say(text: string, keep: readonly string[] = []): string {
  return speak(text, words.value, keep);
}

/** The label of a metric unit in the chosen measures. */
export function unit(metric: string): string {
  return unitLabel(metric, measures.value);
}

/** A metric value in the chosen measures, as a number. */
export function shown(value: number, metric: string): number {
  return toShown(value, metric, measures.value);
}

/** What somebody typed in the chosen measures, as a metric value. */
export function metricOf(value: number, metric: string): number {
  return fromShown(value, metric, measures.value);
}

/** A range with its unit: 64–83 ml. */
export function amount(low: number, high: number, metric: string): string {
  return `${span(shown(low, metric), shown(high, metric))} ${unit(metric)}`.trimEnd();
}

/** A band as its range with its unit. */
export function bandAmount(band: Band, metric: string): string {
  return amount(band.p05, band.p95, metric);
}

/** The middle of a band with its unit, with the digits its width carries. */
export function middleAmount(band: Band, metric: string): string {
  const middle = bandMiddle({
    p05: shown(band.p05, metric),
    p50: shown(band.p50, metric),
    p95: shown(band.p95, metric),
  });
  return `${middle} ${unit(metric)}`.trimEnd();
}
