// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { Plugin, Rollup } from "vite";

type Bundle = Rollup.OutputBundle;

interface Paths {
  /** The worker without its list. */
  readonly worker: string;
  /** Files that are copied as they are. */
  readonly copied: string;
}

/** What the worker keeps: the page, everything built, everything copied. */
export function keptFiles(built: readonly string[], copied: readonly string[]): readonly string[] {
  const files = [...built, ...copied].filter((name) => name !== "index.html").map((name) => `/${name}`);
  return ["/", ...files.sort()];
}

/** The worker with its list; its version is another one as soon as any byte of a file is. */
export function workerWith(code: string, files: readonly string[], contents: readonly (string | Uint8Array)[]): string {
  const hash = createHash("sha256").update(files.join("\n"));
  contents.forEach((content) => hash.update(content));
  const version = hash.digest("hex").slice(0, 16);
  return `const VERSION = ${JSON.stringify(version)};\nconst FILES = ${JSON.stringify(files)};\n${code}`;
}

function contentsOf(bundle: Bundle): readonly (string | Uint8Array)[] {
  return Object.values(bundle).map((part) => (part.type === "chunk" ? part.code : part.source));
}

/** Write the worker that keeps the pages, with the list of all that was built. */
export function offlineWorker({ worker, copied }: Paths): Plugin {
  let root = "";
  return {
    name: "offline-worker",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      ({ root } = config);
    },
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        const folder = resolve(root, copied);
        const files = readdirSync(folder);
        const contents = [...contentsOf(bundle), ...files.map((name) => readFileSync(resolve(folder, name)))];
        const source = workerWith(readFileSync(resolve(root, worker), "utf8"), keptFiles(Object.keys(bundle), files), contents);
        this.emitFile({ type: "asset", fileName: "pages-worker.js", source });
      },
    },
  };
}
