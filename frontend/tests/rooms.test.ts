// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** Which room of the app may use which: no feature uses another, and nothing low uses what is above. */
import { expect, test } from "vitest";

const sources = import.meta.glob<string>("../src/**/*.{ts,tsx}", {
  eager: true,
  query: "?raw",
  import: "default",
});

/** Files that stand by themselves in src, and the rooms. */
const MAY_USE: Readonly<Record<string, readonly string[]>> = {
  lib: [],
  bench: ["lib"],
  api: ["lib", "bench"],
  outbox: ["lib", "api"],
  pictures: ["lib", "api"],
  routes: [],
  display: ["lib"],
  drafts: ["lib"],
  removed: ["lib"],
  offline: [],
  drawing: ["lib", "api", "display"],
  ui: ["lib", "routes", "display"],
  answering: ["lib", "api", "display", "ui"],
  features: ["lib", "bench", "api", "outbox", "pictures", "routes", "display", "drafts", "removed", "drawing", "ui", "answering"],
  carried: ["lib", "api", "routes", "display", "ui", "features", "styles"],
  app: ["lib", "api", "routes", "display", "ui", "features"],
  main: ["app", "display", "offline", "styles"],
};

interface Use {
  readonly file: string;
  readonly from: string;
  readonly to: string;
}

/** "src/features/plan/Goal.tsx" stands in "features/plan", "src/lib/result.ts" in "lib". */
function roomOf(path: string): string {
  const [first = "", second = "", third] = path.replace(/^(\.\.\/)?src\//, "").split("/");
  if (first === "features" && third !== undefined) return `features/${second}`;
  if (first === "features") return `features/${second.replace(/\.\w+$/, "")}`;
  return first.replace(/\.\w+$/, "");
}

function resolved(file: string, target: string): string {
  const parts = file.split("/").slice(0, -1);
  for (const piece of target.split("/")) {
    if (piece === "..") parts.pop();
    else if (piece !== ".") parts.push(piece);
  }
  return parts.join("/");
}

export function usesIn(file: string, code: string): readonly Use[] {
  const found = code.matchAll(/(?:\bfrom\s*|\bimport\s*\(?\s*)"(\.{1,2}\/[^"]+)"/g);
  return [...found].map((use) => ({
    file,
    from: roomOf(file),
    to: roomOf(resolved(file, use[1] ?? "")),
  }));
}

function isAllowed({ from, to }: Use): boolean {
  if (from === to) return true;
  if (from.startsWith("features/") && to.startsWith("features/")) return false;
  const allowed = MAY_USE[from.replace(/\/.*/, "")];
  return allowed?.includes(to.replace(/\/.*/, "")) ?? false;
}

const uses = Object.entries(sources)
  .filter(([file]) => !file.includes(".test."))
  .flatMap(([file, code]) => usesIn(file.replace("../", ""), code));

test("every room keeps to those it may use", () => {
  expect(uses.length).toBeGreaterThan(50);
  expect(uses.filter((use) => !isAllowed(use)).map((use) => `${use.file} uses ${use.to}`)).toEqual([]);
});

test("a feature that uses another is found, however it is written", () => {
  const code = [
    'import { wish } from "../plan/wish";',
    'import type { Wish } from "../plan";',
    'const later = () => import("../plan/Goal");',
    'import "../plan/plan.css";',
    'export { goal } from "../../features/plan";',
    'import { done } from "../../lib/result";',
  ].join("\n");
  const found = usesIn("src/features/describe/index.ts", code);
  expect(found.map((use) => [use.to, isAllowed(use)])).toEqual([
    ["features/plan", false],
    ["features/plan", false],
    ["features/plan", false],
    ["features/plan", false],
    ["features/plan", false],
    ["lib", true],
  ]);
});

test("what is low does not use what is above", () => {
  const use = (file: string, target: string): boolean =>
    usesIn(file, `import { x } from "${target}";`).every(isAllowed);
  expect(use("src/lib/words.ts", "../display")).toBe(false);
  expect(use("src/api/plan.ts", "../ui/Button")).toBe(false);
  expect(use("src/ui/Button.tsx", "../features/plan")).toBe(false);
  expect(use("src/drawing/SceneView.tsx", "../api/circuits")).toBe(true);
});
