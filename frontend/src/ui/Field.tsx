// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface Props {
  readonly label: ComponentChildren;
  readonly value: string;
  readonly onInput: (value: string) => void;
  /** One sentence on what goes in. */
  readonly hint?: ComponentChildren;
  /** What is wrong with what is in it now, and what would do. */
  readonly error?: string | null;
  /** Stands after the box. */
  readonly unit?: string;
  readonly inputMode?: "text" | "decimal" | "numeric";
  /** More than one line: how many are seen at once. */
  readonly rows?: number;
  readonly isCode?: boolean;
  /** A day of the calendar, written year, month, day. */
  readonly isDay?: boolean;
}

/** A box to type in, with its label above and its fault below. */
export function Field(props: Props): ComponentChild {
  const id = useId();
  const { label, hint, error, unit } = props;
  const described = [hint ? `${id}-hint` : "", error ? `${id}-error` : ""].filter(Boolean).join(" ");
  return (
    <div class="field">
      <label for={id} class="field-label">
        {label}
      </label>
      {hint ? (
        <p id={`${id}-hint`} class="field-hint">
          {hint}
        </p>
      ) : null}
      <span class="field-row">
        <Box id={id} described={described} {...props} />
        {unit ? <span class="field-unit">{unit}</span> : null}
      </span>
      {error ? (
        <p id={`${id}-error`} class="field-error" role="alert">
          <StopMark /> {error}
        </p>
      ) : null}
    </div>
  );
}

function Box(props: Props & { id: string; described: string }): ComponentChild {
  const { id, described, value, error, inputMode = "text", rows, isCode = false, isDay = false } = props;
  const common = {
    id,
    value,
    class: isCode ? "box box-code" : "box",
    "aria-invalid": Boolean(error),
    ...(described && { "aria-describedby": described }),
    ...(isCode && { spellcheck: false, autocapitalize: "off" as const }),
    onInput: (event: { currentTarget: { value: string } }) => props.onInput(event.currentTarget.value),
  };
  if (rows !== undefined) return <textarea rows={rows} wrap="off" autocomplete="off" {...common} />;
  if (isDay) return <input type="date" {...common} />;
  return <input type="text" inputMode={inputMode} autocomplete="off" {...common} />;
}

function StopMark(): ComponentChild {
  return <span class="mark mark-stop" aria-hidden="true" />;
}
