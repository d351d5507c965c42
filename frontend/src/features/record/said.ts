// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the record says. Texts are British; the screen says them. */
import type { BenchRecord, RecordEntry, RecordMark, RecordScrew } from "../../api/record";
import { placeWords, whyWords } from "../../bench/said";
import { bandAmount, dayShown, momentShown, shown, unit } from "../../display";
import { timeWords } from "../../lib/dates";
import { perCent, plain } from "../../lib/figures";
import { capital } from "../../lib/words";

/** The names people gave, which no word set may change. */
export function givenNames(record: BenchRecord): readonly string[] {
  return [record.bike, record.circuit, ...record.screws.map((screw) => screw.at), ...record.people];
}

/** What was done, with what, when and by whom. */
export function workWords(record: BenchRecord): string {
  const { work, fluid, method, technique, people } = record;
  const hands = people.length === 0 ? "" : `, by ${listed(people)}`;
  return `${capital(work)} with ${fluid}, ${method} (${technique})${whenWords(record)}${hands}.`;
}

function whenWords({ began_at: began, last_at: last }: BenchRecord): string {
  if (began === null || last === null) return "";
  const [first, final] = [dayShown(began), dayShown(last)];
  return first === final
    ? `, ${first}, ${timeWords(began)} to ${timeWords(last)}`
    : `, ${momentShown(began)} to ${momentShown(last)}`;
}

const PHASES: Readonly<Record<string, string>> = {
  "before opening": "Before anything was opened",
  working: "In the middle of the work",
  "before rolling": "Every screw settled, not checked standing",
  "ready to roll": "Checked standing, not rolled yet",
  "first stop done": "First stop done, not closed",
  closed: "Closed",
  "given up": "Given up",
};

const OPEN: Readonly<Record<string, string>> = {
  gates: "questions that were not answered",
  screws: "a screw that is neither done nor left with a reason",
  level: "the level, which fell low and was not topped up",
  "first stop": "the first stop",
  "follow-ups": "the rechecks",
  "not signed": "the signature",
};

export function phaseWords({ phase }: BenchRecord): string {
  return PHASES[phase] ?? phase;
}

export function openWords({ open }: BenchRecord): string {
  return open.length === 0 ? "Nothing of it is open." : `Still open: ${open.map((code) => OPEN[code] ?? code).join("; ")}.`;
}

/** One row of the table of screws: its name, and what it says of a screw. */
export interface Row {
  readonly name: string;
  readonly of: (screw: RecordScrew) => string;
}

/** The rows in the order of the work; one that no screw has anything for is left out. */
export function rowsOf(record: BenchRecord, screws: readonly RecordScrew[]): readonly Row[] {
  const isForAir = screws.some(({ evidence }) => evidence.some(({ id }) => id === "volume"));
  const rows: readonly (Row & { readonly when?: boolean })[] = [
    { name: "Standing", of: standingWords },
    { name: `${capital(record.unit)}s`, of: ({ count }) => String(count) },
    { name: "Came out", of: ({ out_ml }) => bandAmount(out_ml, "ml") },
    { name: "In the cup", of: ({ cup_ml }) => (cup_ml === null ? "not read" : ml(cup_ml)) },
    {
      name: "Sample kept apart",
      of: ({ sample_ml }) => (sample_ml > 0 ? ml(sample_ml) : "none"),
      when: screws.some(({ sample_ml }) => sample_ml > 0),
    },
    { name: "Top-ups", of: ({ topups }) => String(topups) },
    {
      name: `New fluid, wanted ${plain(100 * record.target)}\u00A0%`,
      of: ({ new_share }) => perCent(new_share),
      when: !isForAir,
    },
    { name: "By the figures", of: (screw) => evidenceWords(screw, "share"), when: !isForAir },
    { name: "By the look", of: (screw) => evidenceWords(screw, "look"), when: !isForAir },
    { name: "By the plan's volume", of: (screw) => evidenceWords(screw, "volume"), when: isForAir },
    { name: "Bubbles", of: bubbleWords },
    { name: "Tube judged", of: ({ tube }) => tube ?? "not tested", when: screws.some(({ tube }) => tube !== null) },
  ];
  return rows.filter(({ when }) => when !== false);
}

/** Of the corrected screws only the rows that read otherwise than before. */
export function changedRows(record: BenchRecord): readonly Row[] {
  return rowsOf(record, record.corrected).filter((row) =>
    record.corrected.some((now) => {
      const before = record.screws.find(({ at }) => at === now.at);
      return before === undefined || row.of(before) !== row.of(now);
    }),
  );
}

function ml(value: number): string {
  return `${plain(Number(shown(value, "ml").toPrecision(3)))} ${unit("ml")}`;
}

function standingWords(screw: RecordScrew): string {
  const because = screw.reason === null ? "" : `: ${screw.reason}`;
  const shut = screw.is_done ? "shut, done" : screw.is_shut ? "shut, not done" : "open";
  return `${shut}${because}${screw.agrees ? "" : " (the evidence disagrees)"}`;
}

const EVIDENCE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  share: { yes: "enough", no: "not enough", unknown: "cannot be told" },
  volume: { yes: "enough", no: "not enough", unknown: "about enough" },
  look: { yes: "clear as new", no: "dark", unknown: "not marked" },
  bubbles: { yes: "none lately", no: "seen lately", unknown: "nothing came out" },
};

function evidenceWords(screw: RecordScrew, id: string): string {
  const says = screw.evidence.find((one) => one.id === id)?.says ?? "unknown";
  return EVIDENCE[id]?.[says] ?? says;
}

function bubbleWords(screw: RecordScrew): string {
  const words = evidenceWords(screw, "bubbles");
  return screw.bubbles === 0 ? words : `${words}, marked ${screw.bubbles === 1 ? "once" : `${screw.bubbles} times`}`;
}

/** "dark at 12–14 ml: sat in the abs unit". */
export function markWords({ look, at_ml: at, named, disagrees }: RecordMark): string {
  const where = placeWords(named);
  const seen = look === "clear" ? "clear as new" : look;
  const from = where === null ? "in new fluid" : `in fluid that sat in ${where}`;
  return `${seen} at ${bandAmount(at, "ml")}, ${from}${disagrees === null ? "" : `; by the figures not expected: ${disagrees}`}`;
}

/** An entry of the log in a line: when, who, what. */
export function entryWords({ at, who, kind, said }: RecordEntry, takenBack: readonly RecordEntry[]): string {
  const target = takenBack.find(({ event }) => kind === "undone" && said.endsWith(event));
  const what = target === undefined ? deedWords(kind, said) : `took back: ${deedWords(target.kind, target.said)}`;
  return `${momentShown(at)}, ${who}: ${what}`;
}

function deedWords(kind: string, said: string): string {
  if (kind === "undone") return "took something back";
  const words = kind.replaceAll("_", " ");
  return said === "" ? words : `${words} (${said})`;
}

/** The name that a signature gives. */
export function signerWords({ said, at }: RecordEntry): string {
  return `${said.replace(/^name /, "")}, ${momentShown(at)}`;
}

/** What was written after the last signature. */
export function sinceSigned({ corrections, signatures }: BenchRecord): number {
  const last = signatures.at(-1);
  return last === undefined ? 0 : corrections.filter(({ event }) => event > last.event).length;
}

export function doubtWords({ doubts }: BenchRecord): readonly string[] {
  return [...new Set(doubts.map(({ code }) => whyWords(code)))];
}

export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
