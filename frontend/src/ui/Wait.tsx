// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

const QUIET_MS = 1000;

/** Says what is being worked out, once that has taken a second. */
export function Wait({ doing }: { readonly doing: string }): ComponentChild {
  const [isLong, setLong] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setLong(true), QUIET_MS);
    return () => clearTimeout(timer);
  }, []);
  return (
    <p class="wait" role="status">
      {isLong ? `${doing} …` : ""}
    </p>
  );
}
