// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Where in the app somebody is. */
export type Route =
  | { readonly screen: "machines" }
  | { readonly screen: "new" }
  | { readonly screen: "machine"; readonly id: string }
  | { readonly screen: "questions"; readonly id: string; readonly circuit: string }
  | { readonly screen: "plan"; readonly id: string; readonly circuit: string }
  | { readonly screen: "print"; readonly id: string; readonly circuit: string }
  | { readonly screen: "kept"; readonly id: string; readonly plan: string }
  | { readonly screen: "start"; readonly id: string; readonly circuit: string }
  | { readonly screen: "job"; readonly id: string }
  | { readonly screen: "jobs" }
  | { readonly screen: "record"; readonly id: string }
  | { readonly screen: "lever"; readonly id: string; readonly circuit: string }
  | { readonly screen: "level"; readonly id: string; readonly circuit: string }
  | { readonly screen: "symptoms" }
  | { readonly screen: "settings" }
  | { readonly screen: "phones" }
  | { readonly screen: "nowhere" };

/** The address of each screen. */
export const to = {
  machines: (): string => "#/",
  newMachine: (): string => "#/new",
  machine: (id: string): string => `#/m/${enc(id)}`,
  questions: (id: string, circuit: string): string => `#/m/${enc(id)}/describe/${enc(circuit)}`,
  plan: (id: string, circuit: string): string => `#/m/${enc(id)}/plan/${enc(circuit)}`,
  print: (id: string, circuit: string): string => `#/m/${enc(id)}/plan/${enc(circuit)}/print`,
  kept: (id: string, plan: string): string => `#/m/${enc(id)}/kept/${enc(plan)}`,
  start: (id: string, circuit: string): string => `#/m/${enc(id)}/bench/${enc(circuit)}`,
  lever: (id: string, circuit: string): string => `#/m/${enc(id)}/lever/${enc(circuit)}`,
  level: (id: string, circuit: string): string => `#/m/${enc(id)}/level/${enc(circuit)}`,
  /** The lever test for a job at the bench, which gets what was measured. */
  leverForJob: (id: string, circuit: string, job: string): string =>
    `#/m/${enc(id)}/lever/${enc(circuit)}?job=${enc(job)}`,
  job: (id: string): string => `#/job/${enc(id)}`,
  record: (id: string): string => `#/job/${enc(id)}/record`,
  jobs: (): string => "#/jobs",
  symptoms: (): string => "#/symptoms",
  settings: (): string => "#/settings",
  phones: (): string => "#/phones",
};

function enc(name: string): string {
  return encodeURIComponent(name);
}

function decoded(piece: string): string {
  try {
    return decodeURIComponent(piece);
  } catch {
    return piece;
  }
}

const ALONE = ["new", "jobs", "symptoms", "settings", "phones"] as const;

/** Read an address; what follows a "?" is left to the screen. */
export function routeOf(hash: string): Route {
  const path = hash.replace(/^#?\/?/, "").replace(/\?.*$/, "");
  const [first, id, what, circuit, last, ...more] = path.split("/").filter(Boolean).map(decoded);
  if (first === undefined) return { screen: "machines" };
  if (id === undefined) {
    const alone = ALONE.find((one) => one === first);
    return { screen: alone ?? "nowhere" };
  }
  if (first === "job" && what === undefined) return { screen: "job", id };
  if (first === "job" && what === "record" && circuit === undefined) return { screen: "record", id };
  if (first !== "m" || more.length > 0) return { screen: "nowhere" };
  if (what === undefined) return { screen: "machine", id };
  if (circuit === undefined) return { screen: "nowhere" };
  if (what === "describe" && last === undefined) return { screen: "questions", id, circuit };
  if (what === "lever" && last === undefined) return { screen: "lever", id, circuit };
  if (what === "level" && last === undefined) return { screen: "level", id, circuit };
  if (what === "bench" && last === undefined) return { screen: "start", id, circuit };
  if (what === "plan" && last === undefined) return { screen: "plan", id, circuit };
  if (what === "plan" && last === "print") return { screen: "print", id, circuit };
  if (what === "kept" && last === undefined) return { screen: "kept", id, plan: circuit };
  return { screen: "nowhere" };
}
