// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What to measure at the calipers, the lines and the unit between. */
import type { ComponentChild } from "preact";

import { Arrow, Body, Dashed, Flow, Fluid, Ink, Lettering, Mark, Measure, Old, Round, Sheet, Solid, Thin, Tube } from "./strokes";

export function AbsUnit(): ComponentChild {
  return (
    <Sheet title="The ABS unit: a block with pipes in and out, and a motor on its side">
      <Body d="M40 44H112V116H40Z" />
      <Body d="M112 56H150Q156 56 156 62V98Q156 104 150 104H112Z" />
      <Ink d="M54 44V30M72 44V30M90 44V30" />
      <Dashed d="M54 48V84H90V48" />
      <Arrow from={[54, 4]} to={[54, 28]} />
      <Arrow from={[90, 28]} to={[90, 4]} />
    </Sheet>
  );
}

export function Caliper(): ComponentChild {
  return (
    <Sheet title="A caliper on the edge of its disc, with the bleed screw on top">
      <Round x={72} y={80} r={48} />
      <Thin d="M50 80A22 22 0 0 1 94 80A22 22 0 0 1 50 80Z" />
      <Body d="M92 34H126Q136 34 136 44V92Q136 98 130 98H104Q96 98 98 88Q100 66 86 50Q82 34 92 34Z" />
      <Ink d="M110 34V26H122V34M116 26V16M136 74H154V52" />
      <Arrow from={[164, 20]} to={[140, 42]} />
    </Sheet>
  );
}

export function Pistons(): ComponentChild {
  return (
    <Sheet title="Caliper pistons seen from the pad, with a ruler across each">
      <Body d="M12 30Q12 22 20 22H156Q164 22 164 30V102Q164 110 156 110H20Q12 110 12 102Z" />
      <Round x={54} y={66} r={32} />
      <Round x={122} y={66} r={26} />
      <Thin d="M34 66A20 20 0 0 1 74 66A20 20 0 0 1 34 66ZM107 66A15 15 0 0 1 137 66A15 15 0 0 1 107 66Z" />
      <Measure from={[22, 66]} to={[86, 66]} />
      <Measure from={[96, 66]} to={[148, 66]} />
    </Sheet>
  );
}

export function Pads(): ComponentChild {
  return (
    <Sheet title="The friction material of a pad, between its metal plate and the disc">
      <Body d="M18 40H46V84H18ZM130 40H158V84H130Z" />
      <Solid d="M46 28H56V96H46ZM120 28H130V96H120Z" />
      <Body d="M56 32H83V92H56ZM93 32H120V92H93Z" />
      <Body d="M83 8H93V124H83Z" />
      <Thin d="M120 98V122" />
      <Measure from={[94, 112]} to={[120, 112]} />
    </Sheet>
  );
}

export function LineLength(): ComponentChild {
  return (
    <Sheet title="A string laid along a hose from one end to the other">
      <Tube d="M28 40C76 20 62 118 110 88S146 88 146 118" />
      <Body d="M18 34H32V48H18ZM138 112H154V126H138Z" />
      <Mark d="M30 26C88 2 78 98 114 72S160 78 160 104M25 20L34 32M154 107L166 101" />
    </Sheet>
  );
}

export function LineBore(): ComponentChild {
  return (
    <Sheet title="The cut end of a hose: the bore is the hole, not the outside">
      <Ink d="M110 22H12M110 110H12" />
      <Round x={112} y={66} r={44} />
      <Thin d="M80 66A32 32 0 0 1 144 66A32 32 0 0 1 80 66Z" />
      <Round x={112} y={66} r={20} />
      <Measure from={[92, 66]} to={[132, 66]} />
      <Lettering x={34} y={72}>3.2</Lettering>
    </Sheet>
  );
}

export function Height(): ComponentChild {
  return (
    <Sheet title="A tape held from the ground up to the part">
      <Thin d="M6 122H170" />
      <Round x={122} y={86} r={36} />
      <Body d="M112 30H146V66H112Z" />
      <Dashed d="M58 48H108" />
      <Measure from={[52, 122]} to={[52, 48]} />
    </Sheet>
  );
}

export function BleedScrew(): ComponentChild {
  return (
    <Sheet title="A bleed screw from above and from the side; the spanner size is across its flats">
      <Body d="M12 46L44 28L76 46V82L44 100L12 82Z" />
      <Round x={44} y={64} r={12} />
      <Measure from={[12, 64]} to={[76, 64]} />
      <Body d="M122 8H136L139 18H119ZM123 18H135V38H123ZM108 38H150V62H108ZM118 62H140V104L134 114H124L118 104Z" />
      <Thin d="M120 38V62M138 38V62M118 72L140 76M118 80L140 84M118 88L140 92M94 68H116M142 68H166" />
    </Sheet>
  );
}

export function Pocket(): ComponentChild {
  return (
    <Sheet title="Inside a caliper: the flow runs from the inlet to the screw and leaves a pocket of old fluid">
      <Fluid d="M37 33H139V109H37Z" />
      <Old x={37} y={74} width={102} height={35} />
      <Ink d="M36 54V32H118M134 32H140V110H36V66M36 54H14M36 66H14M118 32V18M134 32V18" />
      <Flow d="M16 60H58C98 60 126 60 126 24M121 32L126 22L131 32" />
    </Sheet>
  );
}

export function Volume(): ComponentChild {
  return (
    <Sheet title="The fluid of the part, drained into a measuring cup">
      <Body d="M66 6H110V30H66ZM88 30V40" />
      <Fluid d="M58 84H118L114 121H62Z" />
      <Ink d="M53 50L62 122H114L123 50M46 50H54" />
      <Thin d="M108 72H120M106 96H117M104 108H115" />
      <Fluid d="M88 44Q94 54 88 58Q82 54 88 44Z" />
      <Mark d="M50 84H126" />
    </Sheet>
  );
}
