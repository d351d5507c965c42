// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The page of a talk stands behind the "?" of the address, so that the browser's Back works. */
import { useEffect, useState } from "preact/hooks";

/** What the address says under this name. */
export function asked(name: string, hash: string = location.hash): string | null {
  return new URLSearchParams(hash.split("?")[1] ?? "").get(name);
}

/** This page with another value under the name; without one, its beginning. */
export function addressWith(name: string, value: string | null, hash: string = location.hash): string {
  const path = hash.split("?")[0] || "#/";
  return value === null ? path : `${path}?${new URLSearchParams({ [name]: value }).toString()}`;
}

/** Go to a page of the talk. */
export function goTo(name: string, value: string | null): void {
  location.hash = addressWith(name, value);
}

/** What the address says under this name, as it changes. */
export function useAsked(name: string): string | null {
  const [value, setValue] = useState(() => asked(name));
  useEffect(() => {
    const follow = (): void => setValue(asked(name));
    follow();
    window.addEventListener("hashchange", follow);
    return () => window.removeEventListener("hashchange", follow);
  }, [name]);
  return value;
}
