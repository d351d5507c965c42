// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { say } from "../display";
import type { Failure, Problem } from "../lib/request";
import { Button } from "./Button";
import { Notice } from "./Notice";

interface Props {
  readonly failure: Failure;
  readonly onAgain?: () => void;
  /** What is still there although it was not saved. */
  readonly kept?: string;
}

/** Why something did not work and what to do about it. */
export function ErrorNotice({ failure, onAgain, kept }: Props): ComponentChild {
  return (
    <Notice kind="stop" title={titleOf(failure)}>
      {wordsOf(failure)}
      {kept ? <p>{kept}</p> : null}
      {onAgain ? <Button onClick={onAgain}>Try again</Button> : null}
    </Notice>
  );
}

function titleOf(failure: Failure): string {
  switch (failure.kind) {
    case "unreachable":
      return "The server is not reachable";
    case "misfit":
      return "The server answered in a way this page does not understand";
    case "refused":
      return failure.problems.length > 0 ? problemsTitle(failure) : "That did not work";
  }
}

function problemsTitle({ error, problems }: { error: string; problems: readonly Problem[] }): string {
  const things = problems.length === 1 ? "One thing" : `${problems.length} things`;
  return `${things} to put right${error === "circuit-file" ? " in the file" : ""}`;
}

function wordsOf(failure: Failure): ComponentChild {
  switch (failure.kind) {
    case "unreachable":
      return <p>Look at its terminal window. If it is stopped, start it again with: python3 run.py</p>;
    case "misfit":
      return (
        <>
          <p>Load the page afresh. If that does not help, page and server are of different versions.</p>
          <p class="small">{failure.message}</p>
        </>
      );
    case "refused":
      return failure.problems.length > 0 ? (
        <>
          <p>Nothing was changed.</p>
          <ProblemList problems={failure.problems} />
        </>
      ) : (
        <p class="said">{say(failure.message)}</p>
      );
  }
}

/** Every fault of a file by line; with `onLine` each line leads to its place. */
export function ProblemList(props: {
  readonly problems: readonly Problem[];
  readonly onLine?: (line: number) => void;
}): ComponentChild {
  const { problems, onLine } = props;
  return (
    <ol class="problems">
      {problems.map((problem, position) => (
        <li key={position}>
          <span class="problem-line">
            {problem.line === 0 ? (
              "no one line"
            ) : onLine ? (
              <button type="button" class="link" onClick={() => onLine(problem.line)}>
                line {problem.line}
              </button>
            ) : (
              `line ${problem.line}`
            )}
          </span>
          <span>
            {problem.place ? <strong>{problem.place}: </strong> : null}
            {problem.found}; {problem.allowed}
          </span>
        </li>
      ))}
    </ol>
  );
}
