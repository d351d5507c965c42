// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** A drawer that keeps taps until the laptop has them; in the browser's database where there is one. */

/** A tap that waits, with what the server said against it, if anything. */
export interface Kept {
  readonly id: string;
  readonly job: string;
  readonly event: unknown;
  readonly refused: string | null;
}

export interface Drawer {
  /** Whether it outlives a reload. */
  readonly lasts: boolean;
  readonly put: (entries: readonly Kept[]) => Promise<void>;
  readonly all: (job: string) => Promise<readonly Kept[]>;
  readonly remove: (ids: readonly string[]) => Promise<void>;
  /** The last copy of a job, so that it opens while the laptop is away. */
  readonly putCopy: (job: string, copy: unknown) => Promise<void>;
  readonly copy: (job: string) => Promise<unknown>;
}

const DATABASE = "firmlever bench";
const STORE = "outbox";
const COPIES = "jobs";
const VERSION = 1;

/** One for the whole page, so that a screen that opens a job again finds its taps. */
const spare = memoryDrawer();

/** Keep taps in IndexedDB, which stands on plain HTTP too; in memory where a browser refuses it. */
export async function openDrawer(factory: IDBFactory | undefined = globalThis.indexedDB): Promise<Drawer> {
  if (factory === undefined) return spare;
  try {
    return databaseDrawer(await opened(factory));
  } catch {
    return spare;
  }
}

function opened(factory: IDBFactory): Promise<IDBDatabase> {
  const asked = factory.open(DATABASE, VERSION);
  asked.addEventListener("upgradeneeded", () => {
    asked.result.createObjectStore(STORE, { keyPath: "id" }).createIndex("job", "job");
    asked.result.createObjectStore(COPIES);
  });
  return answered(asked);
}

function databaseDrawer(database: IDBDatabase): Drawer {
  const writeIn = async (name: string, work: (store: IDBObjectStore) => void): Promise<void> => {
    const transaction = database.transaction(name, "readwrite", { durability: "strict" });
    try {
      work(transaction.objectStore(name));
    } catch (problem) {
      // What went in before the fault would stay otherwise.
      transaction.abort();
      throw problem;
    }
    await settled(transaction);
  };
  const write = (work: (store: IDBObjectStore) => void): Promise<void> => writeIn(STORE, work);
  return {
    lasts: true,
    put: (entries) => write((store) => entries.forEach((entry) => store.put(entry))),
    remove: (ids) => write((store) => ids.forEach((id) => store.delete(id))),
    all: (job) => {
      const store = database.transaction(STORE).objectStore(STORE);
      return answered<Kept[]>(store.index("job").getAll(job));
    },
    putCopy: (job, copy) => writeIn(COPIES, (store) => store.put(copy, job)),
    copy: (job) => answered<unknown>(database.transaction(COPIES).objectStore(COPIES).get(job)),
  };
}

export function memoryDrawer(): Drawer {
  const kept = new Map<string, Kept>();
  const copies = new Map<string, unknown>();
  return {
    lasts: false,
    put: async (entries) => entries.forEach((entry) => kept.set(entry.id, entry)),
    remove: async (ids) => ids.forEach((id) => kept.delete(id)),
    all: async (job) => [...kept.values()].filter((entry) => entry.job === job),
    putCopy: async (job, copy) => void copies.set(job, copy),
    copy: async (job) => copies.get(job),
  };
}

function answered<Value>(asked: IDBRequest<Value>): Promise<Value> {
  return new Promise((resolve, reject) => {
    asked.addEventListener("success", () => resolve(asked.result));
    asked.addEventListener("error", () => reject(asked.error ?? new Error("the browser's database failed")));
  });
}

function settled(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    const fail = (): void => reject(transaction.error ?? new Error("the browser's database failed"));
    transaction.addEventListener("complete", () => resolve());
    transaction.addEventListener("abort", fail);
    transaction.addEventListener("error", fail);
  });
}
