// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import type { PlanWish } from "../../api/circuits";
import type { FlushPlan } from "../../api/plan";
import { listFluids } from "../../api/tables";
import { metricOf, shown, unit } from "../../display";
import { plain } from "../../lib/figures";
import { Choice } from "../../ui/Choice";
import { Field } from "../../ui/Field";
import { useResource } from "../../ui/resource";
import { Select } from "../../ui/Select";
import type { WishChange } from "../../api/wish";

interface Props {
  readonly plan: FlushPlan;
  readonly wish: PlanWish;
  readonly onChange: (change: WishChange) => void;
}

const USUAL_TARGET = 0.95;
const TARGETS = [0.9, USUAL_TARGET, 0.98, 0.99];

const WARMTH = "how-warm";

/** Bring the box for the warmth into sight, from wherever it is asked for. */
export function goToWarmth(): void {
  const place = document.getElementById(WARMTH);
  const fold = place?.closest("details");
  if (fold) fold.open = true;
  place?.querySelector("input")?.focus();
}

/** How far to go, with which fluid, in what warmth. */
export function Goal({ plan, wish, onChange }: Props): ComponentChild {
  return (
    <>
      {plan.fill ? null : <Target wish={wish} onChange={onChange} />}
      <div class="offer offer-pair" id={WARMTH}>
        <FluidChoice fluid={wish.fluid ?? plan.fluid} onChange={onChange} />
        <Warmth degc={wish.workshop_degc} onChange={onChange} />
      </div>
    </>
  );
}

function Target({ wish, onChange }: Pick<Props, "wish" | "onChange">): ComponentChild {
  const target = wish.target ?? USUAL_TARGET;
  const offered = [...new Set([...TARGETS, target])].toSorted((one, other) => one - other);
  return (
    <div class="offer">
      <Choice
        legend="When a screw is done"
        hint="How much of what comes out must be new before you go on."
        isCompact
        options={offered.map((share) => ({ value: share, label: `${plain(100 * share)} % new` }))}
        value={target}
        onChange={(share) => onChange({ target: share === USUAL_TARGET ? undefined : share })}
      />
    </div>
  );
}

function FluidChoice(props: { fluid: string; onChange: Props["onChange"] }): ComponentChild {
  const known = useResource(listFluids, []);
  const fluids = known.value?.fluids ?? [{ name: props.fluid, base: "" }];
  return (
    <Select
      label="Fluid that goes in"
      options={fluids.map(({ name, base }) => ({ value: name, label: name, group: base }))}
      value={props.fluid}
      onChange={(fluid) => props.onChange({ fluid })}
    />
  );
}

function Warmth(props: { degc: number | undefined; onChange: Props["onChange"] }): ComponentChild {
  const { degc, onChange } = props;
  const [typed, setTyped] = useState(degc === undefined ? "" : plain(shown(degc, "degC")));
  const value = Number(typed.replace(",", "."));
  const isFigure = Number.isFinite(value);
  return (
    <Field
      label="How warm the workshop is"
      hint="Leave it empty if you don't know."
      value={typed}
      unit={unit("degC")}
      inputMode="decimal"
      error={isFigure ? null : "A figure goes here, for example 18."}
      onInput={(next) => {
        setTyped(next);
        const warmth = Number(next.replace(",", "."));
        if (next.trim() === "") onChange({ workshop_degc: undefined });
        else if (Number.isFinite(warmth)) onChange({ workshop_degc: metricOf(warmth, "degC") });
      }}
    />
  );
}
