// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What to measure at the pot, the master cylinder and its lever. */
import type { ComponentChild } from "preact";

import { Arrow, Body, Dashed, Fluid, Ink, Lettering, Mark, Measure, Round, Sheet, Thin } from "./strokes";

export function Pot(): ComponentChild {
  return (
    <Sheet title="A reservoir filled to its MAX mark from a syringe">
      <Fluid d="M53 62H123V112Q123 119 116 119H60Q53 119 53 112Z" />
      <Ink d="M52 44V112Q52 120 60 120H116Q124 120 124 112V44M46 44H58M118 44H130" />
      <Mark d="M46 62H130" />
      <Thin d="M52 98H66" />
      <Lettering x={28} y={66}>MAX</Lettering>
      <Lettering x={28} y={102}>MIN</Lettering>
      <Ink d="M82 8H98V32H82ZM90 32V46M90 8V3M84 3H96" />
      <Fluid d="M83 18H97V31H83Z" />
    </Sheet>
  );
}

export function Master(): ComponentChild {
  return (
    <Sheet title="A master cylinder: the body under the reservoir, pushed by the lever">
      <Fluid d="M47 36H95V64H47Z" />
      <Ink d="M46 24V64M96 24V64M42 24H100" />
      <Body d="M26 64H116V100H26ZM26 82H6" />
      <Fluid d="M27 65H76V99H27Z" />
      <Body d="M76 66H104V98H76Z" />
      <Ink d="M104 82H130M130 68Q140 82 132 96L152 126M70 64V58" />
      <Round x={134} y={66} r={4} />
      <Arrow from={[150, 28]} to={[108, 62]} />
    </Sheet>
  );
}

export function Bore(): ComponentChild {
  return (
    <Sheet title="The size cast into the body of the master cylinder, and the bore that it means">
      <Body d="M8 44Q8 38 14 38H84V94H14Q8 94 8 88Z" />
      <Thin d="M16 46H76M16 86H76" />
      <Lettering x={46} y={72} meant>14</Lettering>
      <Round x={132} y={66} r={38} />
      <Round x={132} y={66} r={26} />
      <Measure from={[106, 66]} to={[158, 66]} />
    </Sheet>
  );
}

export function Stroke(): ComponentChild {
  return (
    <Sheet title="The way of the master piston, from rest to its stop">
      <Fluid d="M21 37H98V79H21Z" />
      <Ink d="M140 36H20V80H140M20 58H6" />
      <Dashed d="M40 40H66V76H40Z" />
      <Body d="M98 38H124V78H98ZM124 58H164" />
      <Thin d="M98 84V112M40 84V112" />
      <Measure from={[98, 102]} to={[40, 102]} />
    </Sheet>
  );
}

export function Leverage(): ComponentChild {
  return (
    <Sheet title="Lever travel 50 mm in from its end, against the travel of the pushrod">
      <Thin d="M30 118H172M30 124H172" />
      <Ink d="M40 26Q66 44 166 50" />
      <Dashed d="M40 26Q62 70 152 96" />
      <Round x={40} y={26} r={7} />
      <Ink d="M52 34H10" />
      <Measure from={[132, 49]} to={[122, 87]} />
      <Measure from={[24, 46]} to={[48, 46]} />
    </Sheet>
  );
}

export function Cover(): ComponentChild {
  return (
    <Sheet title="The reservoir cover from above, with the fluid it asks for cast into it">
      <Body d="M24 36Q24 22 38 22H138Q152 22 152 36V84Q152 98 138 98H38Q24 98 24 84Z" />
      <Round x={38} y={36} r={6} />
      <Round x={138} y={84} r={6} />
      <Thin d="M34 32L42 40M134 80L142 88" />
      <Thin d="M30 98V118H146V98" />
      <Lettering x={88} y={66} meant>DOT 4</Lettering>
    </Sheet>
  );
}
