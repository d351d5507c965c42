// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** What the worker is given to keep, and when it counts as another one. */
import { expect, test } from "vitest";

import { keptFiles, workerWith } from "../../vite/offline";

test("it keeps the page, all that was built and all that was copied, and nothing of the interface", () => {
  const files = keptFiles(["index.html", "assets/b-2.js", "assets/a-1.css"], ["icon.svg"]);
  expect(files).toEqual(["/", "/assets/a-1.css", "/assets/b-2.js", "/icon.svg"]);
});

test("the same files make the same worker, another byte another one", () => {
  const one = workerWith("work();", ["/"], ["<p>one</p>"]);
  expect(workerWith("work();", ["/"], ["<p>one</p>"])).toBe(one);
  expect(workerWith("work();", ["/"], ["<p>two</p>"])).not.toBe(one);
  expect(workerWith("work();", ["/", "/icon.svg"], ["<p>one</p>"])).not.toBe(one);
  expect(one).toMatch(/^const VERSION = "[0-9a-f]{16}";\nconst FILES = \["\/"\];\nwork\(\);$/);
});
