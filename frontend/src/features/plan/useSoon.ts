// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";

const SOON_MS = 300;

/** False until the first picture stands and can be used, so that what is far below does not hold it up. */
export function useSoon(): boolean {
  const [isSoon, setSoon] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setSoon(true), SOON_MS);
    return () => clearTimeout(timer);
  }, []);
  return isSoon;
}
