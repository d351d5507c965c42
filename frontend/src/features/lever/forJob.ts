// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A lever test read for a job at the bench: the job's log gets what was measured. */
import { getJob, job as jobCheck, sendEvents } from "../../api/jobs";
import type { BenchEvent } from "../../bench/event";
import { AIR_AT_MOST, AIR_LEFT } from "../../bench/measured";
import { idClock, millisecondOf } from "../../bench/ids";
import { readEvent } from "../../bench/read";
import type { Band } from "../../lib/figures";
import { recall, remember } from "../../lib/storage";
import { orNull, pairOf, text, validate } from "../../lib/validate";
import { openDrawer } from "../../outbox/drawer";
import { outboxOf } from "../../outbox/outbox";

/** The job that the address names, or null. */
export function jobIn(hash: string): string | null {
  return new URLSearchParams(hash.split("?")[1] ?? "").get("job");
}

const DIGITS = 3;

/**
 * Write the air that is in it now, and the most it may be, into a job's log; both wait here while the laptop is away.
 * Their ids are written down before they are sent: once more after a reload, they are the same two events.
 */
export async function writeMeasured(job: string, test: string, air: Band, who: string, device: string): Promise<void> {
  const drawer = await openDrawer();
  const asked = await getJob(job);
  const found = asked.ok ? asked : validate(jobCheck, await drawer.copy(job).catch(() => null));
  const clock = idClock();
  // after all that this device knows of the job, so that it sorts to the end
  const known = found.ok ? found.value.events.map(readEvent) : [];
  known.forEach((one) => {
    if (one.ok) clock.saw(one.value.id);
  });
  const name = `measured by ${test}`;
  const [most, left] = recall(name, orNull(pairOf(text, text)), null) ?? [clock.next(), clock.next()];
  remember(name, [most, left]);
  const at = new Date(millisecondOf(test)).toISOString();
  const measured = (id: string, what: string, ml: number): BenchEvent => ({
    kind: "measured",
    what,
    value: Number(ml.toPrecision(DIGITS)),
    unit: "ml",
    id,
    at,
    who,
    device,
  });
  const outbox = outboxOf(job, drawer, (waiting) => sendEvents(job, waiting), { onStanding: () => undefined });
  await outbox.add(measured(most, AIR_AT_MOST, air.p95), measured(left, AIR_LEFT, air.p50));
}
