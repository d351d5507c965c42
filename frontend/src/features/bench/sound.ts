// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Tone, voice and vibration. None of them is ever the only channel. */
import type { Move } from "./beat";
import { buzz, tone, voice } from "./settings";

const PITCH_HZ: Readonly<Record<Move | "alarm" | "done", number>> = {
  pull: 392,
  open: 587,
  follow: 494,
  run: 494,
  close: 784,
  release: 330,
  wait: 262,
  alarm: 880,
  done: 523,
};
const LOUD = 0.25;
const SHORT_S = 0.12;

let audio: AudioContext | null = null;

/** Browsers let a page sound only after a tap: call this in one. */
export function wakeSound(): void {
  if (!tone.value || typeof AudioContext === "undefined") return;
  audio ??= new AudioContext();
  if (audio.state === "suspended") void audio.resume();
}

export function cue(move: Move, words: string): void {
  beep(PITCH_HZ[move], SHORT_S, 0);
  if (voice.value) speakLocally(words);
  if (buzz.value) shake(move === "close" ? [60, 40, 60] : [40]);
}

/** Two high beeps and a long shake: the reservoir. */
export function alarm(words: string): void {
  beep(PITCH_HZ.alarm, 0.25, 0);
  beep(PITCH_HZ.alarm, 0.25, 0.35);
  if (voice.value) speakLocally(words);
  if (buzz.value) shake([300, 120, 300]);
}

export function setEnds(): void {
  beep(PITCH_HZ.done, SHORT_S, 0);
  beep(PITCH_HZ.close, SHORT_S, 0.15);
  if (buzz.value) shake([120]);
}

function beep(hz: number, seconds: number, delay: number): void {
  if (!tone.value || audio === null) return;
  const start = audio.currentTime + delay;
  const gain = audio.createGain();
  gain.gain.setValueAtTime(0, start);
  gain.gain.linearRampToValueAtTime(LOUD, start + 0.01);
  gain.gain.linearRampToValueAtTime(0, start + seconds);
  const source = audio.createOscillator();
  source.frequency.value = hz;
  source.connect(gain).connect(audio.destination);
  source.start(start);
  source.stop(start + seconds);
}

/** A page loaded afresh may not shake before it is touched; browsers say so loudly. */
function shake(pattern: readonly number[]): void {
  const isTouched = navigator.userActivation?.hasBeenActive ?? true;
  if (isTouched && "vibrate" in navigator) navigator.vibrate([...pattern]);
}

/** Only voices that live on this device are used; others would send the words away. */
export function localVoice(): SpeechSynthesisVoice | null {
  if (!("speechSynthesis" in globalThis)) return null;
  const voices = speechSynthesis.getVoices().filter((one) => one.localService);
  return voices.find((one) => one.lang.startsWith("en")) ?? null;
}

function speakLocally(words: string): void {
  const found = localVoice();
  if (found === null) return;
  const said = new SpeechSynthesisUtterance(words);
  said.voice = found;
  said.rate = 1.2;
  said.addEventListener("error", () => undefined);
  speechSynthesis.cancel();
  speechSynthesis.speak(said);
}
