// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { LeverDraft, LeverSet } from "../../drafts";
import { measures, momentShown, scale, unit } from "../../display";
import { onScale, type Scale } from "../../lib/units";
import type { LeverLine } from "../../api/levers";
import { Button } from "../../ui/Button";
import { Choice } from "../../ui/Choice";
import { Field } from "../../ui/Field";
import { Select } from "../../ui/Select";
import { Unfold } from "../../ui/Unfold";
import { Pull } from "./Pull";
import { BLANK, nameOf, rowsIn, type Fault } from "./reading";
import { Rows } from "./Rows";
import { GOOD_FORCES_N, isHold, SETS } from "./sets";
import { told } from "./told";

interface Props {
  readonly draft: LeverDraft;
  readonly set: number;
  readonly faults: readonly Fault[];
  readonly kept: readonly LeverLine[];
  readonly baseline: string | null;
  readonly onSet: (set: number) => void;
  readonly onDraft: (change: Partial<LeverDraft>) => void;
}

const SCALES: readonly { readonly value: Scale; readonly label: string }[] = [
  { value: "N", label: "newtons" },
  { value: "kg", label: "kilograms" },
  { value: "lb", label: "pounds" },
];

/** Choose a set, read it pair by pair. */
export function Read(props: Props): ComponentChild {
  const { draft, set, faults, onSet, onDraft } = props;
  const here = draft.sets[set];
  if (here === undefined) return null;
  const putSet = (part: Partial<LeverSet>): void =>
    onDraft({ sets: draft.sets.map((one, at) => (at === set ? { ...one, ...part } : one)) });
  const again = (): void => {
    onDraft({ sets: [...draft.sets, { kind: here.kind, held: here.held, rows: [BLANK] }] });
    onSet(draft.sets.length);
  };
  const forces = GOOD_FORCES_N.map((one) => Number(onScale(one, scale.value).toPrecision(2))).join(", ");
  return (
    <>
      <Choice
        legend="Which set?"
        isCompact
        value={set}
        onChange={onSet}
        options={draft.sets.map((one, at) => ({ value: at, label: nameOf(draft.sets, at), hint: setHint(at, rowsIn(one), faults) }))}
      />
      <Tools {...props} />
      <section class="lever-part" aria-labelledby="lever-set">
        <h2 id="lever-set">{nameOf(draft.sets, set)}</h2>
        <p>{told(SETS[here.kind].how)}</p>
        <p class="soft">{told(SETS[here.kind].tells)}</p>
        {isHold(here.kind) ? (
          <Field label="Force of this hold" unit={scale.value} inputMode="decimal" value={here.held} onInput={(held) => putSet({ held })} />
        ) : (
          <p class="soft">
            Stop at about {forces} {scale.value}; four readings are the least, a dozen are good.
          </p>
        )}
        <Rows
          name={nameOf(draft.sets, set)}
          set={here}
          scale={scale.value}
          faults={faults.filter((fault) => fault.set === set)}
          onChange={(rows) => putSet({ rows })}
        />
        {isHold(here.kind) ? null : <Pull draft={draft} set={set} />}
        <p class="row">{rowsIn(here) > 0 ? <Button onClick={again}>Read this set once more</Button> : null}</p>
      </section>
      <Against {...props} />
    </>
  );
}

function setHint(at: number, count: number, faults: readonly Fault[]): string {
  const faulty = faults.some((fault) => fault.set === at) ? ", to put right" : "";
  return (count === 0 ? "not read" : count === 1 ? "1 reading" : `${count} readings`) + faulty;
}

/** Which earlier test this one is held against. */
function Against({ draft, kept, baseline, onDraft }: Props): ComponentChild {
  if (kept.length === 0) return null;
  return (
    <Select
      label="Compare with an earlier test"
      value={draft.against ?? ""}
      onChange={(id) => onDraft({ against: id === "" ? null : id })}
      options={[
        { value: "", label: "no, this one by itself" },
        ...kept.toReversed().map((one) => ({
          value: one.id,
          label: momentShown(one.made_at) + (one.id === baseline ? ", the good state" : ""),
        })),
      ]}
    />
  );
}

/** What scale and ruler are like, and how thin the air is. */
function Tools({ draft, onDraft }: Props): ComponentChild {
  const shows = SCALES.find(({ value }) => value === scale.value)?.label ?? "";
  return (
    <Unfold summary={`Scale in ${shows}, ruler to ${draft.ruler} ${unit("mm")}`}>
      <div class="lever-part">
        <Choice
          legend="What does the scale show?"
          isCompact
          value={scale.value}
          onChange={(next) => {
            scale.value = next;
          }}
          options={SCALES}
        />
        <p class="soft">It is kept in newtons: a kilogram on the scale is 9.81 N, a pound 4.45 N.</p>
        <Field
          label="Smallest step of the ruler"
          unit={unit("mm")}
          inputMode="decimal"
          value={draft.ruler}
          onInput={(ruler) => onDraft({ ruler })}
          hint={measures.value === "metric" ? "1 for a ruler, 0.2 for a gauge." : "0.04 for a ruler, 0.01 for a gauge."}
        />
        <Field
          label="Height above the sea"
          unit="m"
          inputMode="decimal"
          value={draft.altitude}
          onInput={(altitude) => onDraft({ altitude })}
          hint="Air is thinner higher up; to the nearest 300 m will do."
        />
      </div>
    </Unfold>
  );
}
