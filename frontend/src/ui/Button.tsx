// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

/** "do" is the one thing to do now, "stop" takes something away, "plain" is all else. */
export type ButtonKind = "plain" | "do" | "stop";

export interface ButtonProps {
  readonly children: ComponentChildren;
  readonly kind?: ButtonKind;
  readonly type?: "button" | "submit";
  readonly disabled?: boolean;
  /** Set while the answer is awaited: a second press does nothing. */
  readonly busy?: boolean;
  readonly onClick?: () => void;
}

export function Button(props: ButtonProps): ComponentChild {
  const { kind = "plain", type = "button", disabled = false, busy = false, onClick } = props;
  return (
    <button
      class={`button button-${kind}`}
      type={type === "submit" ? "submit" : "button"}
      disabled={disabled}
      aria-disabled={busy}
      onClick={(event) => {
        if (busy) event.preventDefault();
        else onClick?.();
      }}
    >
      {props.children}
    </button>
  );
}
