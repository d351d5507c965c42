// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { defineConfig } from "vitest/config";

import { carriedPage } from "./vite/carried-page.ts";
import { firstLoadLimit } from "./vite/first-load.ts";
import { offlineWorker } from "./vite/offline.ts";

const DIST = "../src/firmlever/web/dist";

export default defineConfig({
  plugins: [
    firstLoadLimit({ kilobytes: 150 }),
    carriedPage({ entry: "src/carried/main.tsx", outDir: `${DIST}/carried`, kilobytes: 80 }),
    offlineWorker({ worker: "worker/pages.js", copied: "public" }),
  ],
  build: {
    outDir: DIST,
    emptyOutDir: true,
    target: "es2022",
    // The app's security policy takes scripts and styles from its own address only.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    rolldownOptions: {
      output: {
        // One file for what most screens share: a dozen small ones queue up behind each other.
        codeSplitting: {
          groups: [{ name: "shared", test: /src[\\/](ui|lib|drawing|answering|display|api[\\/](shapes|circuits|machines|plan|kept|tables|wish))/ }],
        },
      },
    },
  },
  server: {
    host: "127.0.0.1",
    proxy: {
      "/api": {
        target: "http://127.0.0.1:8017",
        changeOrigin: true,
        headers: { origin: "http://127.0.0.1:8017" },
      },
    },
  },
  test: {
    environment: "happy-dom",
    include: ["src/**/*.test.{ts,tsx}", "tests/**/*.test.{ts,tsx}"],
    setupFiles: ["tests/setup.ts"],
    restoreMocks: true,
  },
});
