// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useRef } from "preact/hooks";

import { AnswerForm } from "../../../answering/AnswerForm";
import type { Question } from "../../../api/circuits";
import type { AnswerValue } from "../../../api/shapes";
import { useTalkKeys } from "../keys";

interface Props {
  readonly question: Question;
  readonly isOpposed: boolean;
  readonly isSending: boolean;
  readonly onKeep: (value: AnswerValue, alsoAlike: boolean) => void;
  readonly onUnknown: () => void;
}

/** The answer to the question of a page, with keys that work anywhere on it. */
export function MeasureForm(props: Props): ComponentChild {
  const place = useRef<HTMLDivElement>(null);
  useTalkKeys({
    onEnter: () => place.current?.querySelector("form")?.requestSubmit(),
    onFigure: () => place.current?.querySelector<HTMLInputElement>(".box")?.focus(),
  });
  return (
    <div ref={place}>
      <AnswerForm {...props} keepWords="Keep and go on" />
    </div>
  );
}
