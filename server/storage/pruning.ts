import { type Log, whyOf } from "../log.ts";
import type { UpdateLog } from "./update-log.ts";

const DAY_MS = 86_400_000;

/** Forgets archived changes older than `days` (0 = never), once a day. Call the answered function as often as you like. */
export const createPruning = (
  storage: Pick<UpdateLog, "prune">,
  days: number,
  log: Log,
  clock: () => number,
): (() => void) => {
  let nextAt = 0;
  return () => {
    const now = clock();
    if (days === 0 || now < nextAt) return;
    nextAt = now + DAY_MS;
    storage.prune(now - days * DAY_MS).then(
      (rows) => log.info("archive-pruned", { rows }),
      (error: unknown) => log.warn("archive-not-pruned", { why: whyOf(error) }),
    );
  };
};
