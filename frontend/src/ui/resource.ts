// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useCallback, useEffect, useRef, useState } from "preact/hooks";

import type { Answer, Failure } from "../lib/request";

export type Resource<Value> = {
  readonly failure: Failure | null;
  /** What came last; it stays while it is asked for again. */
  readonly value: Value | null;
  readonly isAsking: boolean;
  readonly again: () => void;
  /** Put in what the server answered to a change. */
  readonly put: (value: Value) => void;
};

const ASK_AGAIN_MS = 3000;

/**
 * Fetch something and keep it in step with `inputs`. An answer that comes too late is
 * dropped; while the server is away it is asked again every three seconds.
 */
export function useResource<Value>(
  load: (signal: AbortSignal) => Answer<Value>,
  inputs: readonly unknown[],
): Resource<Value> {
  const [value, setValue] = useState<Value | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isAsking, setAsking] = useState(true);
  const [turn, setTurn] = useState(0);
  const latest = useRef(load);
  latest.current = load;

  useEffect(() => {
    const abort = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    setAsking(true);
    latest.current(abort.signal).then(
      (answer) => {
        if (abort.signal.aborted) return;
        setAsking(false);
        if (answer.ok) {
          setValue(() => answer.value);
          setFailure(null);
          return;
        }
        setFailure(answer.reason);
        if (answer.reason.kind === "unreachable") {
          timer = setTimeout(() => setTurn((before) => before + 1), ASK_AGAIN_MS);
        }
      },
      (problem: unknown) => {
        if (!abort.signal.aborted) throw problem;
      },
    );
    return () => {
      abort.abort();
      clearTimeout(timer);
    };
  }, [...inputs, turn]);

  const again = useCallback(() => setTurn((before) => before + 1), []);
  const put = useCallback((next: Value) => {
    setValue(() => next);
    setFailure(null);
  }, []);
  return { value, failure, isAsking, again, put };
}
