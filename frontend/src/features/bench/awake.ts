// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Keep the screen on where the browser allows it. */
import { useEffect, useState } from "preact/hooks";

export type Awake = "kept on" | "not allowed here" | "asking";

/** Ask for it, and again whenever the page comes back into sight. */
export function useAwake(): Awake {
  const [standing, setStanding] = useState<Awake>("asking");
  useEffect(() => {
    if (!("wakeLock" in navigator) || isForbidden()) {
      setStanding("not allowed here");
      return;
    }
    let isOver = false;
    let lock: WakeLockSentinel | null = null;
    const ask = (): void => {
      if (document.visibilityState === "hidden") return;
      navigator.wakeLock.request("screen").then(
        (given) => {
          lock = given;
          if (isOver) void given.release();
          else setStanding("kept on");
        },
        () => setStanding("not allowed here"),
      );
    };
    ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      isOver = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
    };
  }, []);
  return standing;
}

/** Whether this document may not even ask, as in a frame without an origin; only some browsers tell. */
function isForbidden(): boolean {
  const policy: unknown = Reflect.get(document, "featurePolicy");
  if (typeof policy !== "object" || policy === null) return false;
  const allows: unknown = Reflect.get(policy, "allowsFeature");
  return typeof allows === "function" && allows.call(policy, "screen-wake-lock") === false;
}

export const SCREEN_TIMEOUT =
  "This page cannot keep the screen on here. Set the phone's screen timeout to ten minutes or more.";
