// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Let this browser keep the pages, so that they open while the server is away. */

/** Only where it trusts the address: this computer itself, or HTTPS. Elsewhere nothing is kept. */
export function keepPages(): void {
  if (!import.meta.env.PROD || !window.isSecureContext || !("serviceWorker" in navigator)) return;
  // After the first screen, which it must not slow down.
  window.addEventListener("load", () => {
    navigator.serviceWorker.register("/pages-worker.js").catch(() => undefined);
  });
}
