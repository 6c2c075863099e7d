import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";
import type { NewUpdate, StoredUpdate } from "#server/storage/update-log.ts";

/** A storage that, like a disk under a killed process, keeps only what was flushed. */
export interface CrashingStorage extends Storage {
  /** Loses what was not flushed; flushes under way fail. */
  crash(): void;
  /** True while a flush is under way. */
  readonly busy: boolean;
}

/** Turns of the event loop that a flush takes: enough for a crash to fall between a write and its flush. */
const FLUSH_TURNS = 4;

export const createCrashingStorage = (): CrashingStorage => {
  const disk = createMemoryStorage();
  let unflushed: NewUpdate[] = [];
  /** Place of the last row on the disk: those that wait come after it. */
  let lastSeq = 0;
  let lives = 0;
  let flushing = 0;

  const flush = async (): Promise<void> => {
    const life = lives;
    const due = unflushed.length;
    flushing += 1;
    for (let i = 0; i < FLUSH_TURNS; i++) await new Promise<void>((done) => setImmediate(done));
    flushing -= 1;
    if (life !== lives) throw new StorageRefusal("The process died during a flush");
    for (const update of unflushed.splice(0, Math.min(due, unflushed.length))) lastSeq = disk.append(update);
  };

  return {
    ...disk,
    append(update) {
      unflushed.push({ ...update, bytes: update.bytes.slice() });
      return lastSeq + unflushed.length;
    },
    flush,
    async load(board) {
      const flushed = await disk.load(board);
      const rest = unflushed.map(
        (update, i): StoredUpdate => ({ ...update, seq: lastSeq + i + 1, snapshot: null }),
      );
      return [...flushed, ...rest.filter(({ document }) => document === board)];
    },
    async compact(document, snapshot) {
      // A snapshot and the rows before it reach the disk in order, so it is never there without them.
      await flush();
      await disk.compact(document, snapshot);
    },
    get busy() {
      return flushing > 0;
    },
    crash() {
      lives += 1;
      unflushed = [];
    },
  };
};
