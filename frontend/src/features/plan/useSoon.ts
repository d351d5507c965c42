// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";

/** False until the first picture stands, so that what is far below does not hold it up. */
export function useSoon(): boolean {
  const [isSoon, setSoon] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setSoon(true));
    return () => clearTimeout(timer);
  }, []);
  return isSoon;
}
