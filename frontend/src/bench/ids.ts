// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** UUIDv7 ids on a hybrid clock: whoever has seen an event writes ids that sort after it. */

const RANDOM_BYTES = 8;
const COUNTER_TOP = 0x1000;
const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

export function isId(text: string): boolean {
  return ID.test(text);
}

/** The millisecond an id was made in. */
export function millisecondOf(id: string): number {
  return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}

/** The twelve bits behind the version digit; they count within a millisecond. */
function counterOf(id: string): number {
  return Number.parseInt(id.slice(15, 18), 16);
}

export interface IdClock {
  /** Take notice of an id from elsewhere. */
  readonly saw: (id: string) => void;
  /** A new id, greater than every id seen. */
  readonly next: () => string;
}

/** `now` gives milliseconds since 1970, `random` fills bytes. */
export function idClock(
  now: () => number = Date.now,
  random: (bytes: Uint8Array<ArrayBuffer>) => void = (bytes) => void crypto.getRandomValues(bytes),
): IdClock {
  let [last, counter] = [0, 0];
  const saw = (id: string): void => {
    const [ms, count] = [millisecondOf(id), counterOf(id)];
    if (ms > last || (ms === last && count > counter)) [last, counter] = [ms, count];
  };
  const next = (): string => {
    const own = now();
    if (own > last) [last, counter] = [own, 0];
    else counter += 1;
    if (counter >= COUNTER_TOP) [last, counter] = [last + 1, 0];
    return written(last, counter, random);
  };
  return { saw, next };
}

function written(ms: number, counter: number, random: (bytes: Uint8Array<ArrayBuffer>) => void): string {
  const bytes = new Uint8Array(RANDOM_BYTES);
  random(bytes);
  bytes[0] = ((bytes[0] ?? 0) & 0x3f) | 0x80;
  const time = hex(ms, 12);
  const rest = [...bytes].map((byte) => hex(byte, 2)).join("");
  return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(counter, 3)}-${rest.slice(0, 4)}-${rest.slice(4)}`;
}

function hex(value: number, digits: number): string {
  return value.toString(16).padStart(digits, "0");
}
