// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import american from "./american.json";

/** Whose words are used. Texts are written in British words. */
export type WordSet = "uk" | "us";

const AMERICAN = new Map(Object.entries(american));

function alternatives(words: Iterable<string>): string {
  const longestFirst = [...words].filter(Boolean).sort((one, other) => other.length - one.length);
  return longestFirst.map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`)).join("|");
}

const KNOWN = alternatives(AMERICAN.keys());

/** Say a British text in the words asked for; the names in `keep` stay as they were given. */
export function speak(text: string, words: WordSet, keep: readonly string[] = []): string {
  if (words === "uk") return text;
  const kept = alternatives(new Set(keep)) || "(?!)";
  const pattern = new RegExp(String.raw`(?<kept>${kept})|\b(?<word>${KNOWN})(?<s>s?)\b`, "gi");
  return text.replace(pattern, (...found) => {
    const groups = found.at(-1) as { kept?: string; word?: string; s?: string };
    const word = groups.word;
    if (word === undefined) return String(found[0]);
    const said = withPlural(AMERICAN.get(word.toLowerCase()) ?? word, groups.s ?? "");
    const first = word.charAt(0);
    return first === first.toUpperCase() ? said.charAt(0).toUpperCase() + said.slice(1) : said;
  });
}

function withPlural(word: string, s: string): string {
  return s && /(?:ch|sh|s|x)$/.test(word) ? `${word}e${s}` : word + s;
}

/** With its first letter large. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
