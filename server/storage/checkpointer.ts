import { createRequire } from "node:module";
import { Worker } from "node:worker_threads";

/** Folds the write-ahead log back into the database, away from the thread that serves. */
export interface Checkpointer {
  /** Counts a commit; now and then that begins a checkpoint. */
  committed(): void;
  /** Resolves once the worker has let go of the database. */
  close(): Promise<void>;
}

export interface CheckpointerParts {
  /** Path of the database. */
  readonly file: string;
  /** Called when nobody folds the log any more: the thread that serves must do it itself then. */
  readonly onGone: (why: string) => void;
}

/** Commits after which the log is folded back: some tens of MB of it. */
const COMMITS = 4000;

/**
 * What the worker runs. It is text, because the program is one bundle and its tests run from the sources: a file of its
 * own would have another address in each. A passive checkpoint waits for nobody and holds nobody up
 * (https://sqlite.org/c3ref/wal_checkpoint_v2.html).
 */
const WORKER = `
const { parentPort, workerData } = require("node:worker_threads");
const Database = require(workerData.library);
const db = new Database(workerData.file, { fileMustExist: true });
db.pragma("synchronous = NORMAL");
parentPort.on("message", (job) => {
  if (job === "close") {
    db.close();
    parentPort.close();
    return;
  }
  try {
    db.pragma("wal_checkpoint(PASSIVE)");
  } catch {
    // A full or failing disk: the log keeps what it has, and the next round tries again.
  }
  parentPort.postMessage("done");
});
`;

/** The worker starts with the first checkpoint: most runs of the program that are not a server never need it. */
export const createCheckpointer = ({ file, onGone }: CheckpointerParts): Checkpointer => {
  let worker: Worker | null = null;
  let commits = 0;
  let busy = false;
  let gone = false;

  const start = (): Worker => {
    const library = createRequire(import.meta.url).resolve("better-sqlite3");
    const started = new Worker(WORKER, { eval: true, workerData: { file, library } });
    started.unref();
    started.on("message", () => {
      busy = false;
    });
    started.on("error", (error) => {
      gone = true;
      onGone(error.message);
    });
    return started;
  };

  return {
    committed() {
      commits += 1;
      if (commits < COMMITS || busy || gone) return;
      commits = 0;
      busy = true;
      worker ??= start();
      worker.postMessage("fold");
    },
    async close() {
      if (worker === null || gone) return;
      const ended = new Promise((resolve) => worker?.once("exit", resolve));
      worker.ref();
      worker.postMessage("close");
      await ended;
    },
  };
};
