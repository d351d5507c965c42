// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { expect, test } from "vitest";

import { idClock, isId, millisecondOf } from "./ids";

const fill = (bytes: Uint8Array): void => void bytes.fill(255);

test("ids are UUIDv7 that carry their millisecond", () => {
  const id = idClock(() => 1_777_626_000_000).next();
  expect(isId(id)).toBe(true);
  expect(millisecondOf(id)).toBe(1_777_626_000_000);
});

test("within a millisecond, and while the clock runs backwards, each id is greater", () => {
  let now = 5000;
  const clock = idClock(() => now, fill);
  const made = [clock.next(), clock.next()];
  now = 4000;
  made.push(clock.next());
  expect(made).toEqual([...made].sort());
  expect(new Set(made).size).toBe(3);
});

test("whoever has seen an event writes after it, even with a slow clock", () => {
  const ahead = idClock(() => 9_000_000, fill).next();
  const slow = idClock(() => 1000);
  slow.saw(ahead);
  expect(slow.next() > ahead).toBe(true);
});

test("a full counter goes on in the next millisecond", () => {
  const clock = idClock(() => 5000);
  const made = Array.from({ length: 5000 }, () => clock.next());
  expect(made.every(isId)).toBe(true);
  expect(made.every((id, place) => place === 0 || id > (made[place - 1] ?? ""))).toBe(true);
});
