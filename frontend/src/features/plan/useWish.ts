// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { useCallback, useEffect, useState } from "preact/hooks";

import type { PlanWish } from "../../api/circuits";
import { queryOf, wishOf, withChange, type WishChange } from "../../api/wish";

export interface Wishing {
  readonly wish: PlanWish;
  /** Set some pieces and leave the others. */
  readonly change: (change: WishChange) => void;
  /** Set all of it. */
  readonly put: (wish: PlanWish) => void;
}

/** What is asked for, kept in the address so that a link brings back the same plan. */
export function useWish(): Wishing {
  const [wish, setWish] = useState(() => wishOf(location.hash));
  useEffect(() => {
    const here = pathOf(location.hash);
    const follow = (): void => {
      if (pathOf(location.hash) === here) setWish(wishOf(location.hash));
    };
    window.addEventListener("hashchange", follow);
    return () => window.removeEventListener("hashchange", follow);
  }, []);
  const put = useCallback((next: PlanWish) => {
    history.replaceState(history.state, "", pathOf(location.hash) + queryOf(next));
    setWish(next);
  }, []);
  const change = useCallback((wanted: WishChange) => put(withChange(wishOf(location.hash), wanted)), [put]);
  return { wish, change, put };
}

function pathOf(hash: string): string {
  return hash.split("?")[0] ?? "";
}
