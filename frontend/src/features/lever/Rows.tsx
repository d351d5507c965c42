// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId, useRef } from "preact/hooks";

import type { LeverRow, LeverSet } from "../../drafts";
import { unit } from "../../display";
import type { Scale } from "../../lib/units";
import { BLANK, isBlank, withNext, type Fault } from "./reading";
import { isHold } from "./sets";
import { told } from "./told";

interface Props {
  readonly name: string;
  readonly set: LeverSet;
  readonly scale: Scale;
  readonly faults: readonly Fault[];
  readonly onChange: (rows: readonly LeverRow[]) => void;
}

/** Pairs of force and travel; the next row is always open, any row can be mended or taken away. */
export function Rows({ name, set, scale, faults, onChange }: Props): ComponentChild {
  const list = useRef<HTMLOListElement>(null);
  const rows = withNext(set.rows);
  const head = isHold(set.kind) ? "Seconds" : `Force, ${scale}`;
  const label = isHold(set.kind) ? ["Seconds", ""] : ["Force", `, ${scale}`];
  const put = (place: number, change: Partial<LeverRow>): void =>
    onChange(withNext(rows.map((row, at) => (at === place ? { ...row, ...change } : row))));
  const remove = (place: number): void => {
    const rest = rows.filter((_, at) => at !== place);
    onChange(withNext(rest.length === 0 ? [BLANK] : rest));
  };
  const next = (event: KeyboardEvent): void => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    const boxes = [...(list.current?.querySelectorAll("input") ?? [])];
    boxes[boxes.indexOf(event.target as HTMLInputElement) + 1]?.focus();
  };
  return (
    <div class="lever-rows">
      <p class="lever-heads" aria-hidden="true">
        <span>{head}</span>
        <span>Travel, {unit("mm")}</span>
      </p>
      <ol ref={list} aria-label={`Readings: ${name}`}>
        {rows.map((row, place) => (
          <Row
            key={place}
            row={row}
            number={place + 1}
            label={(number) => `${label[0]} ${number}${label[1]}`}
            faults={faults.filter((fault) => fault.row === place)}
            onKey={next}
            onPut={(change) => put(place, change)}
            onRemove={() => remove(place)}
          />
        ))}
      </ol>
    </div>
  );
}

interface RowProps {
  readonly row: LeverRow;
  readonly number: number;
  readonly label: (number: number) => string;
  readonly faults: readonly Fault[];
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onPut: (change: Partial<LeverRow>) => void;
  readonly onRemove: () => void;
}

function Row({ row, number, label, faults, onKey, onPut, onRemove }: RowProps): ComponentChild {
  const id = useId();
  const said = {
    class: "box lever-box",
    type: "text" as const,
    inputMode: "decimal" as const,
    enterkeyhint: "next" as const,
    autocomplete: "off" as const,
    onKeyDown: onKey,
    "aria-invalid": faults.length > 0,
    ...(faults.length > 0 && { "aria-describedby": id }),
  };
  return (
    <li class="lever-row">
      <span class="lever-number" aria-hidden="true">
        {number}
      </span>
      <input
        {...said}
        aria-label={label(number)}
        value={row.at}
        onInput={(event) => onPut({ at: event.currentTarget.value })}
      />
      <input
        {...said}
        aria-label={`Travel ${number}, ${unit("mm")}`}
        value={row.travel}
        onInput={(event) => onPut({ travel: event.currentTarget.value })}
      />
      {isBlank(row) ? (
        <span />
      ) : (
        <button type="button" class="lever-remove" onClick={onRemove}>
          Remove<span class="only-heard"> row {number}</span>
        </button>
      )}
      {faults.length > 0 ? (
        <p id={id} class="field-error lever-fault" role="alert">
          <span class="mark mark-stop" aria-hidden="true" /> {faults.map((fault) => told(fault.words)).join(" ")}
        </p>
      ) : null}
    </li>
  );
}
