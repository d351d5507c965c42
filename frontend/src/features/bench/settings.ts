// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What this person set for the bench; kept in this browser. */
import { effect, signal } from "@preact/signals";

import { deviceHere } from "../../lib/device";
import { recall, remember } from "../../lib/storage";
import { listOf, number, orNull, record, text, yesNo } from "../../lib/validate";

export const tone = signal(recall("bench tone", yesNo, true));
export const voice = signal(recall("bench voice", yesNo, false));
export const buzz = signal(recall("bench buzz", yesNo, true));
/** Every stroke is tapped by hand instead of led. */
export const tapped = signal(recall("bench tap each stroke", yesNo, false));
/** Seconds a stroke, where somebody set it. */
export const pace = signal(recall("bench pace", orNull(number), null));
export const who = signal(recall("bench who", text, ""));
export const device = signal(recall("bench device", text, ""));

const keysCheck = record({ main: listOf(text), undo: listOf(text) });
export const keys = signal(
  recall("bench keys", keysCheck, {
    main: ["PageDown", "ArrowRight", " ", "Enter"] as readonly string[],
    undo: ["PageUp", "ArrowLeft"] as readonly string[],
  }),
);

/** Keep what is set in step with the browser's memory; returns what stops that. */
export function keepSettings(): () => void {
  return effect(() => {
    remember("bench tone", tone.value);
    remember("bench voice", voice.value);
    remember("bench buzz", buzz.value);
    remember("bench tap each stroke", tapped.value);
    remember("bench pace", pace.value);
    remember("bench who", who.value);
    remember("bench device", device.value);
    remember("bench keys", keys.value);
  });
}

/** This device by a name that tells it from another of its kind. */
export function deviceName(): string {
  if (device.value === "") device.value = deviceHere();
  return device.value;
}
