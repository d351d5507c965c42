// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { PlanWish } from "./circuits";
import { METHODS } from "./shapes";

/** What a link asks of a plan: `#/m/ID/plan/front?method=vacuum&target=0.98`. */
export function wishOf(hash: string): PlanWish {
  const asked = new URLSearchParams(hash.split("?")[1] ?? "");
  const work = asked.get("work") === "fill" ? "fill" : undefined;
  const method = METHODS.find((one) => one === asked.get("method"));
  const technique = asked.get("technique");
  const fluid = asked.get("fluid");
  const target = numberIn(asked, "target");
  const degc = numberIn(asked, "workshop_degc");
  const seed = numberIn(asked, "seed");
  return {
    ...(work === undefined ? {} : { work }),
    ...(method === undefined ? {} : { method }),
    ...(technique === null ? {} : { technique }),
    ...(fluid === null ? {} : { fluid }),
    ...(target === undefined ? {} : { target }),
    ...(degc === undefined ? {} : { workshop_degc: degc }),
    ...(seed === undefined ? {} : { seed }),
    ...(asked.get("pistons_home") === "yes" ? { pistons_home: true } : {}),
  };
}

/** The same wish as the end of a link; empty where nothing is asked for. */
export function queryOf(wish: PlanWish): string {
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(wish)) {
    if (value === undefined || value === false) continue;
    asked.set(name, value === true ? "yes" : String(value));
  }
  const query = asked.toString();
  return query === "" ? "" : `?${query}`;
}

/** Pieces of a wish to set; undefined takes a piece back to the usual. */
export type WishChange = { readonly [Piece in keyof PlanWish]?: PlanWish[Piece] | undefined };

/** A wish with some of it changed. */
export function withChange(wish: PlanWish, change: WishChange): PlanWish {
  const merged = Object.entries({ ...wish, ...change }).filter(
    ([, value]) => value !== undefined && value !== false,
  );
  return Object.fromEntries(merged) as PlanWish;
}

function numberIn(asked: URLSearchParams, name: string): number | undefined {
  const found = asked.get(name);
  if (found === null || found.trim() === "") return undefined;
  const value = Number(found);
  return Number.isFinite(value) ? value : undefined;
}
