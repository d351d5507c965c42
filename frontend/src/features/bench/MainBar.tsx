// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

interface Props {
  readonly title: ComponentChildren;
  /** One line under the title. */
  readonly words?: ComponentChildren;
  /** "do" is what to do now, "stop" is the reservoir's warning, "plain" halts the rhythm. */
  readonly kind?: "do" | "stop" | "plain";
  readonly onPress: () => void;
  readonly disabled?: boolean;
}

/** The one great target at the bottom; a pedal presses it too. */
export function MainBar({ title, words, kind = "do", onPress, disabled = false }: Props): ComponentChild {
  return (
    <button type="button" class={`bar bar-main bar-${kind}`} onClick={onPress} disabled={disabled}>
      <span class="bar-title">
        {kind === "plain" ? null : <span class={`mark mark-${kind}`} aria-hidden="true" />} {title}
      </span>
      {words ? <span class="bar-words">{words}</span> : null}
    </button>
  );
}

/** A lesser target beside or above the main one, still made for wet gloves. */
export function Tap(props: {
  readonly children: ComponentChildren;
  readonly onPress: () => void;
  readonly pressed?: boolean;
}): ComponentChild {
  return (
    <button
      type="button"
      class="tap"
      onClick={props.onPress}
      {...(props.pressed === undefined ? {} : { "aria-pressed": props.pressed })}
    >
      {props.children}
    </button>
  );
}
