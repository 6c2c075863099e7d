import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";

/** A memory storage whose disk can be made to fail, and whose flushes can be held. */
export interface FaultyStorage extends Storage {
  /** While true, nothing can be appended, as on a full disk. */
  full: boolean;
  /** While true, flushes reject, as when the disk answers with an error. */
  broken: boolean;
  /** Keeps flushes from finishing until the answered function is called. */
  hold(): () => void;
}

export const createFaultyStorage = (): FaultyStorage => {
  const inner = createMemoryStorage();
  let held: Promise<void> = Promise.resolve();
  const storage: FaultyStorage = {
    ...inner,
    full: false,
    broken: false,
    append(update) {
      if (storage.full) throw new StorageRefusal("database or disk is full");
      return inner.append(update);
    },
    async flush() {
      await held;
      if (storage.broken) throw new StorageRefusal("input/output error");
      await inner.flush();
    },
    hold() {
      let release: () => void = () => undefined;
      held = new Promise((resolve) => {
        release = resolve;
      });
      return release;
    },
  };
  return storage;
};
