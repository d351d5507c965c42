// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { gzipSync } from "node:zlib";
import { build, type Plugin, type Rollup } from "vite";

/** What would end the element that the text is put into. */
const ENDS_EARLY = { "page.js": /<\/script|<!--/i, "page.css": /<\/style/i } as const;

/**
 * Build the page that is carried out of reach beside the app: one script and one style sheet,
 * which the server puts into a single file with the job. The app's own files are not touched.
 */
export function carriedPage(how: { entry: string; outDir: string; kilobytes: number }): Plugin {
  let root = "";
  return {
    name: "carried-page",
    apply: "build",
    configResolved(config) {
      ({ root } = config);
    },
    async closeBundle() {
      const made = (await build({
        root,
        configFile: false,
        publicDir: false,
        build: {
          outDir: how.outDir,
          emptyOutDir: false,
          target: "es2022",
          cssCodeSplit: false,
          modulePreload: false,
          reportCompressedSize: false,
          rolldownOptions: {
            input: how.entry,
            output: { format: "iife", entryFileNames: "page.js", assetFileNames: "page[extname]" },
          },
        },
        logLevel: "warn",
      })) as Rollup.RollupOutput;
      const files = new Map(made.output.map((part) => [part.fileName, textOf(part)]));
      let bytes = 0;
      for (const [name, ends] of Object.entries(ENDS_EARLY)) {
        const text = files.get(name);
        if (text === undefined) throw new Error(`the carried page was built without its ${name}`);
        if (ends.test(text)) throw new Error(`${name} holds ${ends}, which would end its element early`);
        bytes += gzipSync(text).length;
      }
      if (files.size > 2) throw new Error(`the carried page has parts too many: ${[...files.keys()].join(", ")}`);
      const found = `carried page: ${(bytes / 1000).toFixed(1)} kB compressed without its job, at most ${how.kilobytes}`;
      if (bytes > how.kilobytes * 1000) throw new Error(found);
      console.log(found);
    },
  };
}

function textOf(part: Rollup.OutputChunk | Rollup.OutputAsset): string {
  return part.type === "chunk" ? part.code : part.source.toString();
}
