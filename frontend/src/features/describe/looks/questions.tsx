// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What is asked about a machine that stands before one, and what the answers look like. */
import type { ComponentChild } from "preact";

import { BIKE_CLASSES, type BikeClass } from "../../../api/shapes";
import { ClassStance, looks } from "../../../pictures";
import type { Answers, Step } from "./answers";

export type Given = string | number | boolean | null;

export interface Card {
  readonly value: Given;
  readonly label: string;
  readonly hint?: string;
  readonly picture?: ComponentChild;
}

export interface LooksQuestion {
  readonly title: string;
  /** Where to look, or why it matters. */
  readonly where: string;
  /** What the summary calls it. */
  readonly short: string;
  readonly cards: readonly Card[];
  /** What "don't know" leads to. */
  readonly unknown: string;
}

const CLASS_WORDS: Readonly<Record<BikeClass, readonly [label: string, hint: string]>> = {
  small: ["Small", "up to 125 or so, simple brakes"],
  commuter: ["Commuter", "plain, upright, one front disc"],
  scooter: ["Scooter", "flat floor, both brakes on the bar"],
  naked: ["Naked", "no fairing, twin front discs as a rule"],
  sport: ["Sport", "low bars, full fairing"],
  tourer: ["Tourer", "large, screen, luggage"],
  adventure: ["Adventure", "tall, wide bars, large front wheel"],
  cruiser: ["Cruiser", "long, low, feet forward"],
  "off-road": ["Off-road", "trials, motocross, enduro"],
};

const FROM_CLASS = "The plan takes what is usual for this kind of machine";

type Table = Readonly<Record<Exclude<Step, "name">, LooksQuestion>>;

export const QUESTIONS: Table = {
  bike_class: {
    title: "What kind of machine is it?",
    where: "The nearest will do. It stands in for everything you leave out.",
    short: "Kind",
    cards: BIKE_CLASSES.map((one) => ({
      value: one,
      label: CLASS_WORDS[one][0],
      hint: CLASS_WORDS[one][1],
      picture: <ClassStance of={one} />,
    })),
    unknown: "",
  },
  front_discs: {
    title: "How many discs are on the front wheel?",
    where: "Look at the wheel from ahead.",
    short: "Front discs",
    cards: [
      { value: 2, label: "Two", hint: "one on each side", picture: <looks.FrontDiscs count={2} /> },
      { value: 1, label: "One", hint: "on one side only", picture: <looks.FrontDiscs count={1} /> },
      { value: 0, label: "None", hint: "a drum in the hub", picture: <looks.FrontDiscs count={0} /> },
    ],
    unknown: FROM_CLASS,
  },
  front_layout: {
    title: "Where are the pistons of the front caliper?",
    where: "Look along the disc. A caliper with pistons on one side slides on two pins.",
    short: "Front calipers",
    cards: [
      {
        value: "opposed",
        label: "On both sides of the disc",
        hint: "the caliper is bolted fast",
        picture: <looks.OpposedCaliper />,
      },
      {
        value: "floating",
        label: "On one side only",
        hint: "the caliper can slide sideways",
        picture: <looks.FloatingCaliper />,
      },
    ],
    unknown: FROM_CLASS,
  },
  fork: {
    title: "How does the line divide to the two calipers?",
    where: "Follow it down from the lever, or from the ABS unit.",
    short: "Front line",
    cards: [
      {
        value: "splitter",
        label: "At a splitter",
        hint: "a small block near the lower yoke",
        picture: <looks.SplitterFork />,
      },
      {
        value: "double banjo",
        label: "At the top, on one bolt",
        hint: "a double banjo: two lines all the way",
        picture: <looks.DoubleBanjoFork />,
      },
      {
        value: "caliper to caliper",
        label: "From caliper to caliper",
        hint: "a second line over the wheel",
        picture: <looks.AcrossFork />,
      },
    ],
    unknown: FROM_CLASS,
  },
  abs_unit: {
    title: "Does it have ABS?",
    where: "Turn the key and look for its lamp on the dash.",
    short: "ABS",
    cards: [
      { value: true, label: "Yes", hint: "the lamp comes on", picture: <looks.AbsLamp /> },
      { value: false, label: "No", hint: "there is no such lamp", picture: <looks.NoAbsLamp /> },
    ],
    unknown: FROM_CLASS,
  },
  rear_disc: {
    title: "What brakes the rear wheel?",
    where: "Look at the hub from the side.",
    short: "Rear brake",
    cards: [
      { value: true, label: "A disc", hint: "with a caliper and a hose", picture: <looks.RearDisc /> },
      { value: false, label: "A drum", hint: "with a rod or cable, no fluid", picture: <looks.RearDrum /> },
    ],
    unknown: FROM_CLASS,
  },
  hydraulic_clutch: {
    title: "Is the clutch worked by fluid?",
    where: "Look at the left lever: a reservoir and a hose, or a cable.",
    short: "Clutch",
    cards: [
      { value: true, label: "Yes", hint: "a reservoir and a hose", picture: <looks.FluidClutch /> },
      { value: false, label: "No", hint: "a cable, or no clutch lever", picture: <looks.CableClutch /> },
    ],
    unknown: FROM_CLASS,
  },
  fluid: {
    title: "Which fluid does the reservoir cover ask for?",
    where: "It is cast or printed there. A clutch may ask for another one than the brakes.",
    short: "Fluid",
    cards: [
      { value: "DOT 4", label: "DOT 4" },
      { value: "DOT 5.1", label: "DOT 5.1" },
      { value: "DOT 3", label: "DOT 3" },
      { value: "DOT 5", label: "DOT 5", hint: "silicone, not the same as 5.1" },
      { value: "mineral oil", label: "Mineral oil", hint: "never mixed with DOT fluid" },
    ],
    unknown: "The plan takes DOT 4. Look before you buy",
  },
};

/** An answer as the summary says it. */
export function saidAs(step: Step, answers: Answers): string {
  const given = answers[step];
  if (step === "name") return typeof given === "string" ? given : "";
  if (given === undefined || given === null) return "not known: as is usual for its kind";
  return QUESTIONS[step].cards.find((card) => card.value === given)?.label ?? String(given);
}
