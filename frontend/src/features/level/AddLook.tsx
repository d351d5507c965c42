// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { keepLook, type Measure } from "../../api/looks";
import { idClock } from "../../bench/ids";
import { measures, metricOf, unit } from "../../display";
import { dropLookDraft, keepLookDraft, recallLookDraft } from "../../drafts";
import type { Failure } from "../../lib/request";
import { recall, remember } from "../../lib/storage";
import { text } from "../../lib/validate";
import { Button } from "../../ui/Button";
import { Choice } from "../../ui/Choice";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Field } from "../../ui/Field";
import { Switch } from "../../ui/Switch";
import { Glass } from "./Glass";
import { blank, lookOf, type Faults, type Typed } from "./look";

interface Props {
  readonly machine: string;
  readonly circuit: string;
  readonly calipers: readonly string[];
  readonly onKept: () => void;
}

const LONGEST_NAME = 60;

function todayHere(): string {
  const now = new Date();
  const two = (part: number): string => `${part}`.padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** What was half typed, unless the circuit has other calipers since; else an empty look. */
function begun(machine: string, circuit: string, units: string, calipers: readonly string[]): Typed {
  const kept = recallLookDraft(machine, circuit, units);
  const isOurs = kept !== null && Object.keys(kept.pads).toSorted().join() === calipers.toSorted().join();
  return isOurs ? kept : blank(todayHere(), calipers);
}

/** One look: the level, the pads, and what was done since the look before. */
export function AddLook({ machine, circuit, calipers, onKept }: Props): ComponentChild {
  const units = measures.value;
  const [typed, setTyped] = useState(() => begun(machine, circuit, units, calipers));
  const [name, setName] = useState(() => recall("bench who", text, ""));
  const [faults, setFaults] = useState<Faults>({});
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);
  const put = (next: Typed): void => {
    setTyped(next);
    keepLookDraft(machine, circuit, units, next);
  };
  const change = (part: Partial<Typed>): void => put({ ...typed, ...part, id: null });
  const changePads = (caliper: string, part: Partial<Typed["pads"][string]>): void => {
    const before = typed.pads[caliper] ?? { thin: "", other: "" };
    change({ pads: { ...typed.pads, [caliper]: { ...before, ...part } } });
  };
  const keep = async (): Promise<void> => {
    const look = lookOf(typed, metricOf);
    setFaults(look.ok ? {} : look.reason);
    if (!look.ok) return;
    const who = name.trim().slice(0, LONGEST_NAME);
    remember("bench who", who);
    // sent once more after a cut or a reload, it is the same look
    const id = typed.id ?? idClock().next();
    put({ ...typed, id });
    setBusy(true);
    const answer = await keepLook(machine, circuit, { ...look.value, id, who });
    setBusy(false);
    setFailure(answer.ok ? null : answer.reason);
    if (!answer.ok) return;
    dropLookDraft(machine, circuit, units);
    setTyped(blank(todayHere(), calipers));
    onKept();
  };
  return (
    <section class="level-part" aria-labelledby="level-add">
      <h2 id="level-add">Add a look</h2>
      <p class="soft">Machine upright, bars turned so that the reservoir is level, cover on.</p>
      <Field label="Day" isDay value={typed.on} error={faults["on"] ?? null} onInput={(on) => change({ on })} />
      <Choice<Measure>
        legend="Level read as"
        isCompact
        value={typed.measure}
        onChange={(measure) => change({ measure, level: "" })}
        options={[
          { value: "level_share", label: "Between the marks" },
          { value: "below_max_mm", label: "Depth below MAX" },
          { value: "level_ml", label: "Content" },
        ]}
      />
      {typed.measure === "level_share" ? (
        <Glass share={typed.share} onShare={(share) => change({ share })} />
      ) : (
        <Field
          label={typed.measure === "below_max_mm" ? "Below MAX" : "Content, from the floor"}
          unit={unit(typed.measure === "below_max_mm" ? "mm" : "ml")}
          inputMode="decimal"
          value={typed.level}
          error={faults["level"] ?? null}
          onInput={(level) => change({ level })}
        />
      )}
      {calipers.map((caliper) => (
        <fieldset class="level-pads" key={caliper}>
          <legend class="field-label">{`Pads of the ${caliper}, friction material only`}</legend>
          <Field
            label="Thinnest pad"
            unit={unit("mm")}
            inputMode="decimal"
            value={typed.pads[caliper]?.thin ?? ""}
            error={faults[`thin ${caliper}`] ?? null}
            onInput={(thin) => changePads(caliper, { thin })}
          />
          <Field
            label="Other pad, if read"
            unit={unit("mm")}
            inputMode="decimal"
            value={typed.pads[caliper]?.other ?? ""}
            error={faults[`other ${caliper}`] ?? null}
            onInput={(other) => changePads(caliper, { other })}
          />
        </fieldset>
      ))}
      <Field
        label="Poured in since the look before"
        hint="Less what was drawn off; empty for nothing."
        unit={unit("ml")}
        inputMode="decimal"
        value={typed.poured}
        error={faults["poured"] ?? null}
        onInput={(poured) => change({ poured })}
      />
      <Field
        label="Odometer, if read"
        unit={unit("km")}
        inputMode="decimal"
        value={typed.km}
        error={faults["km"] ?? null}
        onInput={(km) => change({ km })}
      />
      <Switch label="On its side stand" on={typed.isOnSide} onChange={(isOnSide) => change({ isOnSide })} />
      {calipers.length > 0 ? (
        <Switch
          label="New pads since the look before"
          on={typed.hasNewPads}
          onChange={(hasNewPads) => change({ hasNewPads })}
        />
      ) : null}
      <Field label="Your name" value={name} onInput={setName} />
      {failure ? <ErrorNotice failure={failure} kept="What you typed is still here." /> : null}
      <p>
        <Button kind="do" busy={isBusy} disabled={name.trim() === ""} onClick={() => void keep()}>
          Keep this look
        </Button>
      </p>
    </section>
  );
}
