// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId, useRef } from "preact/hooks";

import type { Problem } from "../lib/request";
import { ProblemList } from "./ErrorNotice";

interface Props {
  readonly label: string;
  readonly value: string;
  readonly onInput: (value: string) => void;
  readonly problems: readonly Problem[];
}

const LINE_REM = 1.5;

/** A plain editor for a circuit file: line numbers, and each fault leads to its line. */
export function FileText({ label, value, onInput, problems }: Props): ComponentChild {
  const id = useId();
  const box = useRef<HTMLTextAreaElement>(null);
  const numbers = useRef<HTMLDivElement>(null);
  const lines = value.split("\n").length;
  const faulty = new Set(problems.map((problem) => problem.line));

  const goToLine = (line: number): void => {
    const area = box.current;
    if (area === null) return;
    const start = value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    const end = value.indexOf("\n", start);
    area.focus();
    area.setSelectionRange(start, end < 0 ? value.length : end);
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    area.scrollTop = Math.max(0, (line - 4) * LINE_REM * rem);
  };

  return (
    <div class="field">
      <label for={id} class="field-label">
        {label}
      </label>
      {problems.length > 0 ? (
        <div id={`${id}-problems`} role="alert" class="notice notice-stop file-problems">
          <p class="notice-title">
            <span class="mark mark-stop" aria-hidden="true" />{" "}
            {problems.length === 1 ? "One thing" : `${problems.length} things`} to put right, nothing was saved
          </p>
          <ProblemList problems={problems} onLine={goToLine} />
        </div>
      ) : null}
      <div class="file-text">
        <div class="file-numbers" ref={numbers} aria-hidden="true">
          {Array.from({ length: lines }, (_, index) => (
            <span key={index} class={faulty.has(index + 1) ? "file-fault" : ""}>
              {index + 1}
            </span>
          ))}
        </div>
        <textarea
          id={id}
          ref={box}
          class="file-box"
          value={value}
          wrap="off"
          spellcheck={false}
          autocapitalize="off"
          autocomplete="off"
          aria-invalid={problems.length > 0}
          {...(problems.length > 0 ? { "aria-describedby": `${id}-problems` } : {})}
          onInput={(event) => onInput(event.currentTarget.value)}
          onScroll={(event) => {
            if (numbers.current) numbers.current.scrollTop = event.currentTarget.scrollTop;
          }}
        />
      </div>
    </div>
  );
}
