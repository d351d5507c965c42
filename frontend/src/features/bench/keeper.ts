// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Who keeps the records: the laptop over the network, or nobody within reach. */
import { eventsAfter, getJob, sendEvents } from "../../api/jobs";
import type { Level } from "../../api/serving";

export interface Keeper {
  readonly job: typeof getJob;
  readonly after: typeof eventsAfter;
  readonly send: typeof sendEvents;
  /** On a carried page, where nothing is ever sent: what that way lacks. */
  readonly carried: Level | null;
}

export const LAPTOP: Keeper = { job: getJob, after: eventsAfter, send: sendEvents, carried: null };
