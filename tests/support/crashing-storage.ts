import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { type NewUpdate, type Storage, StorageRefusal, type StoredUpdate } from "#server/storage/storage.ts";

/** A storage that, like a disk under a killed process, keeps only what was flushed. */
export interface CrashingStorage extends Storage {
  /** Loses what was not flushed; flushes under way fail. */
  crash(): void;
}

export const createCrashingStorage = (): CrashingStorage => {
  const disk = createMemoryStorage();
  let unflushed: NewUpdate[] = [];
  let lives = 0;
  return {
    ...disk,
    append(update) {
      unflushed.push({ ...update, bytes: update.bytes.slice() });
      return unflushed.length;
    },
    async flush() {
      const life = lives;
      const due = unflushed.length;
      // One turn of the event loop, so that a crash can fall between the write and the flush.
      await new Promise<void>((done) => setImmediate(done));
      if (life !== lives) throw new StorageRefusal("The process died during a flush");
      for (const update of unflushed.splice(0, Math.min(due, unflushed.length))) disk.append(update);
    },
    async load(board) {
      const flushed = await disk.load(board);
      const rest = unflushed.filter((update) => update.board === board);
      return [...flushed, ...rest.map((update, i): StoredUpdate => ({ ...update, seq: 1e9 + i }))];
    },
    crash() {
      lives += 1;
      unflushed = [];
    },
  };
};
