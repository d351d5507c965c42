// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What the bench says. Texts are British; the screen says them. */
import type { BenchEvent } from "../../bench/event";
import type { Evidence } from "../../bench/evidence";
import type { Mark } from "../../bench/marks";
import type { AirFound } from "../../bench/measured";
import { placeWords } from "../../bench/said";
import type { JobSheet } from "../../bench/sheet";
import type { BenchState, Turn } from "../../bench/state";
import type { Verdict } from "../../bench/tube";
import { bandAmount, say, shown, unit } from "../../display";
import { bandRange, counted, count as countRange, perCent, plain } from "../../lib/figures";

/** The names people gave, which no word set may change. */
export function givenNames(sheet: JobSheet): readonly string[] {
  return [
    sheet.bike,
    sheet.circuit,
    ...sheet.points.flatMap((point) => [point.at, point.part, ...point.strip.origins]),
  ];
}

/** "6 strokes" or "45 seconds". */
export function counts(sheet: JobSheet, many: number): string {
  return counted(String(many), sheet.unit.name);
}

/** What there is to do at the reservoir: fill it, or with fluid coming up draw it off. */
export function potDeed(sheet: JobSheet): { readonly in: string; readonly now: string; readonly done: string } {
  return sheet.direction === "down"
    ? { in: "top up in", now: "top up now", done: "Topped up to MAX" }
    : { in: "draw off in", now: "draw off now", done: "Drawn off to MIN" };
}

/** Under the count: 27 ml out · 71 % new (62–80). */
/** How much is out, and in a flush how new it is by now. */
export function outWords(sheet: JobSheet, turn: Turn): string {
  const out = `${plain(Number(shown(turn.out_ml.p50, "ml").toPrecision(2)))} ${unit("ml")} out`;
  if (sheet.work !== "flush") return out;
  const [middle, range] = [wholePerCent(turn.new_share.p50), shareRange(turn)];
  return `${out} · ${middle} % new${range === middle ? "" : ` (${range})`}`;
}

function wholePerCent(share: number): string {
  return String(Math.round(100 * share));
}

function shareRange({ new_share: share }: Turn): string {
  const [low, high] = [wholePerCent(share.p05), wholePerCent(share.p95)];
  return low === high ? low : `${low}–${high}`;
}

export function totalWords(sheet: JobSheet, turn: Turn): string {
  return `of ${countRange(turn.total_count)} ${sheet.unit.name}s`;
}

/** Where the fluid sat that was marked just now. */
export function markWords(sheet: JobSheet, mark: Mark, at: string): string {
  const keep = givenNames(sheet);
  const where = placeWords(mark.named);
  const first = firstWords(mark, where, at);
  return say(mark.disagrees === null ? first : `${first} ${disagreementWords(mark.disagrees)}`, keep);
}

function firstWords(mark: Mark, where: string | null, at: string): string {
  switch (mark.look) {
    case "dark":
      return where === null ? `Dark, though only new fluid is expected here.` : `The dark fluid sat in ${where}.`;
    case "clear":
      return where === null ? `Clear as new, as expected.` : `Clear: what comes now sat in ${where}.`;
    case "bubbles":
      return where === null
        ? `Bubbles in new fluid: they may come past the threads at the ${at}.`
        : `The bubbles came with fluid that sat in ${where}.`;
  }
}

function disagreementWords(code: NonNullable<Mark["disagrees"]>): string {
  return code === "dark though new"
    ? "By the figures it should run new by now. Trust your eyes: a pocket may hold old fluid, or less has come out than counted."
    : "By the figures it should still be old. New and old may be hard to tell apart here: go on, and look again.";
}

/** A bleed or a fill is led otherwise: it is not after new fluid. */
function isFlush({ work }: JobSheet): boolean {
  return work === "flush";
}

function cleanRun(sheet: JobSheet): string {
  return sheet.unit.name === "stroke" ? "5 strokes" : "20 seconds";
}

const EVIDENCE: Readonly<Record<Evidence["id"], string>> = {
  share: "The figures",
  look: "What you saw",
  volume: "What came out",
  bubbles: "Bubbles",
};

export function evidenceWords(sheet: JobSheet, turn: Turn, one: Evidence): { readonly name: string; readonly words: string } {
  const share = shareRange(turn);
  const words: Readonly<Record<Evidence["id"], Readonly<Record<Evidence["says"], string>>>> = {
    share: {
      yes: `${share} % new, wanted ${plain(100 * sheet.target)} %`,
      no: `${share} % new, wanted ${plain(100 * sheet.target)} %`,
      unknown: `${share} % new; ${plain(100 * sheet.target)} % lies in between`,
    },
    look: { yes: "clear as new", no: "dark when last marked", unknown: "not marked yet" },
    volume: {
      yes: "as much as the plan wants",
      no: "less than the plan wants",
      unknown: "about what the plan wants",
    },
    bubbles: isFlush(sheet)
      ? { yes: "none marked lately", no: "bubbles in the last few strokes", unknown: "nothing has come out yet" }
      : { yes: `none for ${cleanRun(sheet)}`, no: `some within the last ${cleanRun(sheet)}`, unknown: `not ${cleanRun(sheet)} yet` },
  };
  return { name: EVIDENCE[one.id], words: words[one.id][one.says] };
}

const SLOW = "Gravity moves fluid slowly: it shows no air that stays at a high place or in a wide passage.";

/** What the verdict of the tube test means, what to do, and what it cannot tell. */
const VERDICTS: Readonly<Record<Verdict, { readonly means: string; readonly advice: string; readonly open: string }>> = {
  "past threads or tube joint": {
    means: "The air comes past the threads of the screw or the tube's joint, not from the brake.",
    advice: "Press the tube on afresh, grease the mouth of the threads sparingly, open the screw less. Then judge by gravity or the lever.",
    open: `It does not show how much of the bubbling is the threads'. ${SLOW}`,
  },
  "past threads and from the circuit": {
    means: "Air comes past the threads or the joint, and with the fluid as well.",
    advice: "Mend the joint first, let it rest {rest}, go on and test again.",
    open: "It does not show which share is whose, nor froth from air where there was no rest.",
  },
  "from the circuit": {
    means: "There is air in the circuit: bubbles come with the fluid, without suction and after a rest.",
    advice: "Go on at this screw until none comes. Look for a high place, a loose joint, a low level.",
    open: "It does not show where the air sat, nor how much is left.",
  },
  "from the circuit or froth": {
    means: "The bubbles come with the fluid; whether it is air in the circuit or froth, only a rest tells.",
    advice: "Shut the screw, wait {rest}, and let it run by gravity once more.",
    open: "Without the rest, froth and air look alike.",
  },
  "froth from pumping": {
    means: "It is froth: the bubbles were gone after a rest.",
    advice: "Stroke slowly, pour gently, keep the tube's end under fluid.",
    open: "What rose may have gathered at a high place on the way; the lever will show it.",
  },
  "drawn by suction": {
    means: "Suction draws gas out of the fluid, or air past the opened threads. Neither was in the circuit.",
    advice: "Judge by gravity or by the lever. Bubbles under suction need no leak and never end.",
    open: `Which of the two it is cannot be told: a shut screw's threads are tighter than an open one's. ${SLOW}`,
  },
  "cannot tell": {
    means: "These answers fit more than one cause.",
    advice: "Shut the screw with the suction on and look; then let it run by gravity.",
    open: "Without both tests there is no verdict.",
  },
};

/** How long froth needs to rise in this fluid, at the slow end. */
export function restWords({ tube }: JobSheet): string {
  return tube === null ? "a quarter of an hour" : `${tube.rest_minutes} minutes`;
}

export function verdictWords(sheet: JobSheet, verdict: Verdict): { means: string; advice: string; open: string } {
  const { means, advice, open } = VERDICTS[verdict];
  const gas = verdict === "drawn by suction" ? sheet.tube?.gas_ml_per_100_ml : null;
  const drawn = gas ? ` Sound fluid can give up to ${bandRange(gas)} % of its volume in bubbles at the usual suction.` : "";
  return { means: means + drawn, advice: advice.replace("{rest}", restWords(sheet)), open };
}

/** Why the laptop keeps a tap out; what it did not understand is written by another version. */
export function refusalWords(code: string): string {
  if (code === "other content") return "Another tap was kept under the same id. The first one stays.";
  if (code === "not understood") return "It was not understood: page and server are of different versions.";
  return code;
}

/** What the last lever test of this job found, and the most it may be. */
export function airWords({ ml, atMostMl }: AirFound): string {
  const written = (value: number): string => `${plain(Number(shown(value, "ml").toPrecision(2)))} ${unit("ml")}`;
  return `The last lever test found ${written(ml)} of air${atMostMl === null ? "" : `, at most ${written(atMostMl)}`}.`;
}

/** One tap as a line of the list. */
export function tapWords(sheet: JobSheet, event: BenchEvent): string {
  const at = "point" in event ? `${sheet.points[event.point]?.at ?? `screw ${event.point + 1}`}: ` : "";
  return at + deedWords(sheet, event);
}

/** What was done, without where. */
export function deedWords(sheet: JobSheet, event: BenchEvent): string {
  switch (event.kind) {
    case "started":
      return event.posture === "level" ? "job begun, reservoir level" : "job begun, on the side stand";
    case "gate":
      return `“${sheet.gates.find((one) => one.id === event.gate)?.words ?? event.gate}”: ${event.answer}`;
    case "bottle":
      return `bottle of ${event.fluid}`;
    case "drawn_down":
      return "old fluid drawn out of the reservoir";
    case "topped_up":
      return toppedWords(sheet, event.to);
    case "level_read":
      return `level read, ${plain(event.above_min_ml)} ml above MIN`;
    case "went_below":
      return event.what === "port" ? "level fell below the port" : "level fell below MIN";
    case "at_screw":
      return "spanner on";
    case "sample":
      return `sample of ${plain(event.ml)} ml`;
    case "set_done":
      return counts(sheet, event.count);
    case "caught":
      return `${plain(event.ml)} ml in the cup`;
    case "mark":
      return event.look === "clear" ? "clear as new" : `${event.look} here`;
    case "suction":
      return event.on ? "suction on" : "suction off";
    case "tube_test":
      return "tube judged";
    case "shut":
      return event.is_done ? "shut, done" : `shut: ${event.reason ?? "not done"}`;
    case "unit_cycled":
      return `ABS unit cycled: ${event.how}`;
    case "paused":
      return "job paused";
    case "resumed":
      return "job taken up again";
    case "note":
      return `note: ${event.text}`;
    case "measured":
      return `${event.what} ${plain(event.value)} ${event.unit}`;
    case "photo":
      return `photo ${event.name}`;
    case "undone":
      return "taken back";
    case "ended":
      return event.end;
    case "rechecked":
      return `recheck ${event.follow_up}: ${event.answer}`;
    case "signed":
      return `signed by ${event.name}`;
  }
}

function toppedWords(sheet: JobSheet, to: "max" | "fill line" | number): string {
  const verb = sheet.direction === "down" ? "topped up" : "drawn off";
  return typeof to === "number" ? `${verb} to ${plain(to)} ml above MIN` : `${verb} to ${to === "max" ? "MAX" : "the fill line"}`;
}

/** Of all that stays old, so much in the ABS unit is worth taking out (judgement). */
const WORTH_CYCLING = 0.05;

/** Whether what stays in the ABS unit is a large part of everything. */
export function isCyclingWorthIt({ units }: JobSheet): boolean {
  return Object.values(units).some(({ of_whole }) => of_whole.p50 >= WORTH_CYCLING);
}

/** What stays in each ABS unit, in figures. */
export function unitLines({ unswept, units }: JobSheet): readonly string[] {
  return Object.entries(unswept).map(([name, ml]) => {
    const amount = `${name}: ${bandAmount(ml, "ml")} of old fluid stay in it`;
    const shares = units[name];
    return shares === undefined
      ? `${amount}.`
      : `${amount}, ${perCent(shares.in_unit)} of the unit and ${perCent(shares.of_whole)} of all the fluid in the circuit.`;
  });
}

const WORKING: Readonly<Record<string, string>> = { bleed: "Bleeding", fill: "Filling" };

export function phaseWords(state: BenchState): string {
  switch (state.phase) {
    case "before opening":
      return "Before anything is opened";
    case "working":
      return WORKING[state.work] ?? "At work";
    case "before rolling":
      return "Before it rolls";
    case "ready to roll":
      return "Checked standing";
    case "first stop done":
      return "First stop done";
    case "closed":
      return "Closed";
    case "given up":
      return "Given up";
  }
}
