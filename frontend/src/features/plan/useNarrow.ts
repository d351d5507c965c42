// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";

const NARROW = "(width < 720px)";

/** Whether the screen is as narrow as a phone's; it follows when the screen is turned. */
export function useNarrow(): boolean {
  const [isNarrow, setNarrow] = useState(() => matchMedia(NARROW).matches);
  useEffect(() => {
    const asked = matchMedia(NARROW);
    const follow = (): void => setNarrow(asked.matches);
    asked.addEventListener("change", follow);
    return () => asked.removeEventListener("change", follow);
  }, []);
  return isNarrow;
}
