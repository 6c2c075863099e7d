import { StorageRefusal } from "./storage.ts";

/** Runs database work; whatever the database throws comes out as StorageRefusal. */
export type Guarded = <T>(run: () => T) => T;

/** Runs writing work and resolves with its answer once it is on the disk. */
export type Write = <T>(run: () => T) => Promise<T>;

export const refusal = (error: unknown): StorageRefusal =>
  error instanceof StorageRefusal
    ? error
    : new StorageRefusal(error instanceof Error ? error.message : String(error), { cause: error });

export const guarded: Guarded = (run) => {
  try {
    return run();
  } catch (error) {
    throw refusal(error);
  }
};
