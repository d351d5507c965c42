// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What somebody sees of a machine by looking at it. */
import type { ComponentChild } from "preact";

import { Arrow, Body, Dashed, Ink, Lettering, Mark, Round, Sheet, Solid, Thin } from "./strokes";

const DISC_TITLES = [
  "A front wheel seen from ahead, without a disc",
  "A front wheel seen from ahead, with a disc on one side",
  "A front wheel seen from ahead, with a disc on each side",
] as const;

/** How many discs the front wheel has. */
export function FrontDiscs({ count }: { count: 0 | 1 | 2 }): ComponentChild {
  return (
    <Sheet title={DISC_TITLES[count]}>
      <Ink d="M46 6V74M130 6V74" />
      <Thin d="M40 74H136" />
      <Body d="M74 30Q74 14 88 14Q102 14 102 30V112Q102 126 88 126Q74 126 74 112Z" />
      {count > 0 && (
        <>
          <Solid d="M58 42H63V106H58Z" />
          <Mark d="M50 50H70V72H50Z" />
        </>
      )}
      {count > 1 && (
        <>
          <Solid d="M113 42H118V106H113Z" />
          <Mark d="M106 50H126V72H106Z" />
        </>
      )}
    </Sheet>
  );
}

const GRIP = "M34 16H142V112H112V50H64V112H34Z";

/** Pistons on both sides of the disc: the caliper is bolted fast. */
export function OpposedCaliper(): ComponentChild {
  return (
    <Sheet title="A caliper over its disc with pistons on both sides">
      <CaliperOverDisc />
      <Mark d="M40 64H66V98H40ZM110 64H136V98H110Z" />
    </Sheet>
  );
}

/** Pistons on one side: the caliper slides on two pins. */
export function FloatingCaliper(): ComponentChild {
  return (
    <Sheet title="A caliper over its disc with pistons on one side, free to slide">
      <CaliperOverDisc />
      <Mark d="M40 64H66V98H40Z" />
      <Thin d="M20 32H156M24 27L18 32L24 37M152 27L158 32L152 37" />
    </Sheet>
  );
}

function CaliperOverDisc(): ComponentChild {
  return (
    <>
      <Body d={GRIP} />
      <Solid d="M68 60H74V102H68ZM102 60H108V102H102Z" />
      <Body d="M74 62H82V100H74ZM94 62H102V100H94Z" />
      <Body d="M83 56H93V126H83Z" />
    </>
  );
}

function TwoCalipers(): ComponentChild {
  return (
    <>
      <Body d="M18 92H46V124H18ZM130 92H158V124H130Z" />
      <Body d="M66 4H110V20H66Z" />
    </>
  );
}

export function SplitterFork(): ComponentChild {
  return (
    <Sheet title="One line comes down to a splitter, and two go on to the calipers">
      <Ink d="M88 20V56M88 62C88 82 32 64 32 92M88 62C88 82 144 64 144 92" />
      <TwoCalipers />
      <Mark d="M80 52H96V66H80Z" />
    </Sheet>
  );
}

export function DoubleBanjoFork(): ComponentChild {
  return (
    <Sheet title="Two lines leave the master cylinder on one bolt, one to each caliper">
      <Ink d="M84 22C84 54 32 54 32 92M92 22C92 54 144 54 144 92" />
      <TwoCalipers />
      <Mark d="M78 20H98V30H78Z" />
    </Sheet>
  );
}

export function AcrossFork(): ComponentChild {
  return (
    <Sheet title="One line goes to the first caliper, and another from there over the wheel to the second">
      <Ink d="M80 20C80 56 26 50 26 92" />
      <Mark d="M38 92C44 48 136 48 144 92" />
      <TwoCalipers />
    </Sheet>
  );
}

export function AbsLamp(): ComponentChild {
  return (
    <Sheet title="The ABS lamp among the instruments">
      <Body d="M14 26Q14 14 26 14H150Q162 14 162 26V106Q162 118 150 118H26Q14 118 14 106Z" />
      <Round x={58} y={66} r={32} />
      <Thin d="M58 66L78 48M34 66H38M58 42V46M78 66H82" />
      <Mark d="M104 66A22 22 0 0 1 148 66A22 22 0 0 1 104 66Z" />
      <Lettering x={126} y={70}>ABS</Lettering>
    </Sheet>
  );
}

export function NoAbsLamp(): ComponentChild {
  return (
    <Sheet title="Instruments without an ABS lamp">
      <Body d="M14 26Q14 14 26 14H150Q162 14 162 26V106Q162 118 150 118H26Q14 118 14 106Z" />
      <Round x={58} y={66} r={32} />
      <Thin d="M58 66L78 48M34 66H38M58 42V46M78 66H82M108 50H146M108 66H146M108 82H134" />
    </Sheet>
  );
}

export function RearDisc(): ComponentChild {
  return (
    <Sheet title="A rear wheel with a disc and a caliper on its edge">
      <Round x={88} y={66} r={58} />
      <Thin d="M42 66A46 46 0 0 1 134 66A46 46 0 0 1 42 66Z" />
      <Ink d="M54 66A34 34 0 0 1 122 66A34 34 0 0 1 54 66Z" />
      <Round x={88} y={66} r={10} />
      <Mark d="M104 28H126V54H110Q106 40 98 34Z" />
    </Sheet>
  );
}

export function RearDrum(): ComponentChild {
  return (
    <Sheet title="A rear wheel with a drum in its hub, worked by a rod and an arm">
      <Round x={88} y={66} r={58} />
      <Thin d="M42 66A46 46 0 0 1 134 66A46 46 0 0 1 42 66ZM88 20V40M88 92V112M42 66H62M114 66H134" />
      <Ink d="M62 66A26 26 0 0 1 114 66A26 26 0 0 1 62 66Z" />
      <Round x={88} y={66} r={7} />
      <Mark d="M100 78L110 104M110 104H170" />
    </Sheet>
  );
}

export function FluidClutch(): ComponentChild {
  return (
    <Sheet title="A clutch lever with a reservoir beside it and a hose going down">
      <Bar />
      <Body d="M108 24H146V48H108Z" />
      <Thin d="M108 34H146" />
      <Mark d="M146 58H158C168 58 164 90 164 124" />
      <Arrow from={[76, 12]} to={[102, 32]} />
    </Sheet>
  );
}

export function CableClutch(): ComponentChild {
  return (
    <Sheet title="A clutch lever that pulls a cable, with an adjuster and no reservoir">
      <Bar />
      <Mark d="M146 60H164M140 54V66M146 55V65" />
      <Dashed d="M164 60C176 60 166 96 166 124" />
    </Sheet>
  );
}

function Bar(): ComponentChild {
  return (
    <>
      <Ink d="M6 60H170M6 76H170" />
      <Body d="M6 56H70V80H6Z" />
      <Body d="M112 52H142V84H112Z" />
      <Ink d="M120 84Q114 104 84 100L18 96" />
    </>
  );
}
