// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Cautions in pieces: what they are about, and the rest. */
import { capital } from "./words";

/** Who comes first; it stands under every plan, whatever the plan says. */
export const FIRST_AUTHORITY =
  "The machine's manual, local rules and licensed practice come first. " +
  "Where they differ from this plan, follow them.";

export interface Caution {
  readonly topic: string;
  readonly words: string;
}

/** All cautions but the word on who comes first, which stands by itself. */
export function cautionsOf(texts: readonly string[]): readonly Caution[] {
  return texts.filter((text) => text !== FIRST_AUTHORITY).map(inPieces);
}

function inPieces(text: string): Caution {
  const colon = text.indexOf(": ");
  const isTopic = colon > 0 && colon < 40;
  return isTopic
    ? { topic: capital(text.slice(0, colon)), words: text.slice(colon + 2) }
    : { topic: "", words: text };
}

const SHORT = 60;

/** Whole sentences from the beginning, until they say enough for a page with little room. */
export function shortened(words: string): string {
  const sentences = words.split(/(?<=[.!?])\s+/);
  return sentences.reduce((said, next) => (said.length < SHORT ? `${said} ${next}` : said));
}
