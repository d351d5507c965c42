// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** The server takes so many events at once, and 64 kB with what stands around them. */
export const MOST_AT_ONCE = 200;
const MOST_BYTES = 60_000;

/** Events in their order, cut into pieces that the server takes. */
export function batchesOf<Event>(events: readonly Event[]): readonly (readonly Event[])[] {
  const batches: Event[][] = [];
  const encoder = new TextEncoder();
  let bytes = 0;
  for (const event of events) {
    const size = encoder.encode(JSON.stringify(event)).length + 1;
    const last = batches.at(-1);
    if (last === undefined || last.length >= MOST_AT_ONCE || bytes + size > MOST_BYTES) {
      batches.push([event]);
      bytes = size;
    } else {
      last.push(event);
      bytes += size;
    }
  }
  return batches;
}
