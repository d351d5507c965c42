// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

// Keeps the app's own pages in this browser, so that they open while the server is away.
// VERSION and FILES stand above, written by the build. Answers of the interface are never
// kept: what was tapped lies in the outbox, with the copy of its job.

const KEPT = "firmlever pages ";
const OWN = KEPT + VERSION;
const PAGE = "/";
const PATIENCE_MS = 4000;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(OWN).then((cache) => cache.addAll(FILES)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(dropOlder().then(() => self.clients.claim()));
});

// Only a load of the page hands over to a newer version, so none changes in the middle of a job.
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (request.mode === "navigate") {
    if (pathname === PAGE) event.respondWith(newestPage(event));
  } else if (FILES.includes(pathname)) {
    event.respondWith(keptFile(request));
  }
});

async function dropOlder() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(KEPT) && name !== OWN).map((name) => caches.delete(name)));
}

/** The page as the server has it; the kept one where nobody answers. */
async function newestPage({ request }) {
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
    await handOver();
    return answer;
  } catch {
    return keptFile(PAGE);
  }
}

/** A newer version waits: it may begin where no other page is open. */
async function handOver() {
  const pages = await self.clients.matchAll({ type: "window" });
  if (pages.length <= 1) self.registration.waiting?.postMessage("take over");
}

async function keptFile(request) {
  const cache = await caches.open(OWN);
  return (await cache.match(request)) ?? fetch(request);
}
