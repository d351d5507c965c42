// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useRef } from "preact/hooks";

import { say } from "../../../display";
import { useTalkKeys } from "../keys";
import type { Card, Given } from "./questions";

interface Props {
  readonly label: string;
  readonly cards: readonly Card[];
  /** What was answered before; undefined where nothing was. */
  readonly given: Given | undefined;
  /** Shown last, when the question may stay open. */
  readonly unknown: string;
  readonly onAnswer: (value: Given) => void;
}

/** One press answers and goes on. Arrow keys walk through the cards, Enter presses one. */
export function AnswerCards({ label, cards, given, unknown, onAnswer }: Props): ComponentChild {
  const group = useRef<HTMLFieldSetElement>(null);
  const walk = (step: 1 | -1): void => {
    const all = [...(group.current?.querySelectorAll("button") ?? [])];
    const here = all.findIndex((one) => one === document.activeElement);
    const chosen = all.findIndex((one) => one.getAttribute("aria-pressed") === "true");
    const next = here < 0 ? Math.max(chosen, 0) : (here + step + all.length) % all.length;
    all[next]?.focus();
  };
  useTalkKeys({
    onArrow: walk,
    ...(given !== undefined && { onEnter: () => onAnswer(given) }),
  });
  const shown: readonly Card[] = unknown
    ? [...cards, { value: null, label: "Don't know", hint: unknown }]
    : cards;
  return (
    <fieldset class="answer-cards" ref={group}>
      <legend class="only-heard">{label}</legend>
      {shown.map((card) => (
        <button
          key={String(card.value)}
          type="button"
          class={card.value === null ? "card answer-card answer-card-unknown" : "card answer-card"}
          aria-pressed={card.value === given}
          onClick={() => onAnswer(card.value)}
        >
          {card.picture ? (
            // Its label and hint say the same; heard first, the picture would hide them.
            <span class="answer-picture" aria-hidden="true">
              {card.picture}
            </span>
          ) : null}
          <span class="card-words">
            <span class="card-label">{say(card.label)}</span>
            {card.hint ? <span class="card-hint">{say(card.hint)}</span> : null}
          </span>
        </button>
      ))}
    </fieldset>
  );
}
