// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { gzipSync } from "node:zlib";
import type { Plugin, Rollup } from "vite";

type Bundle = Rollup.OutputBundle;

/** The files a browser needs before the first screen stands: the entry and all it imports at once. */
export function firstLoadFiles(bundle: Bundle): string[] {
  const wanted = new Set<string>();
  const visit = (name: string): void => {
    const part = bundle[name];
    if (part === undefined || wanted.has(name)) return;
    wanted.add(name);
    if (part.type !== "chunk") return;
    part.imports.forEach(visit);
    part.viteMetadata?.importedCss.forEach(visit);
  };
  for (const [name, part] of Object.entries(bundle)) {
    if (part.type === "chunk" ? part.isEntry : name.endsWith(".html")) visit(name);
  }
  // The machine list is loaded lazily like every screen, yet it is what opens first.
  for (const [name, part] of Object.entries(bundle)) {
    if (part.type === "chunk" && part.facadeModuleId?.includes("/features/machines/")) visit(name);
  }
  return [...wanted].sort();
}

function compressed(bundle: Bundle, name: string): number {
  const part = bundle[name];
  if (part === undefined) return 0;
  return gzipSync(part.type === "chunk" ? part.code : part.source).length;
}

/** Print what the first load weighs, and stop the build when it weighs too much. */
export function firstLoadLimit(limit: { kilobytes: number }): Plugin {
  return {
    name: "first-load-limit",
    apply: "build",
    enforce: "post",
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        const sizes = firstLoadFiles(bundle).map((name) => compressed(bundle, name));
        const kilobytes = sizes.reduce((sum, size) => sum + size, 0) / 1000;
        const found = `first load: ${kilobytes.toFixed(1)} kB compressed in ${sizes.length} files, at most ${limit.kilobytes}`;
        if (kilobytes > limit.kilobytes) this.error(found);
        console.log(found);
      },
    },
  };
}
