// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What waits on this device, as a file. */
import type { Session } from "./session";

/** Some browsers read the file only after the press is over. */
const READ_BY_THEN_MS = 60_000;

export function queueName(session: Session): string {
  return `bench-queue-${session.id}.json`;
}

export async function saveQueue(session: Session): Promise<void> {
  const content = await session.outbox.exported();
  const address = URL.createObjectURL(new Blob([content], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = queueName(session);
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), READ_BY_THEN_MS);
}

/** Browsers hand on plain text, but no file whose name ends in .json. */
function asText(session: Session, content: string): File {
  return new File([content], queueName(session).replace(".json", ".txt"), { type: "text/plain" });
}

/** Whether this browser hands a file on to a message or another app. */
export function shareable(): boolean {
  const probe = { files: [new File(["{}"], "bench-queue.txt", { type: "text/plain" })] };
  return typeof navigator.canShare === "function" && navigator.canShare(probe);
}

export async function shareQueue(session: Session): Promise<void> {
  await navigator.share({ files: [asText(session, await session.outbox.exported())] });
}
