import { foldingHistory, type History, type HistoryRow } from "#shared/history/history.ts";

/** How long (ms) folding may hold the page before it rests: well within a frame, so that scrolling stays smooth. */
const SLICE_MS = 8;

const rest = (): Promise<void> => new Promise((done) => setTimeout(done));

/** Folds rows on top of a base without holding the page. Rejects with the signal's reason once nobody waits any more. */
export const foldAwake = async (
  base: readonly HistoryRow[],
  rows: readonly HistoryRow[],
  signal: AbortSignal,
): Promise<History> => {
  const folding = foldingHistory(
    base.map(({ bytes }) => bytes),
    rows,
  );
  let until = performance.now() + SLICE_MS;
  for (;;) {
    const { done, value } = folding.next();
    if (done) return value;
    if (performance.now() < until) continue;
    await rest();
    signal.throwIfAborted();
    until = performance.now() + SLICE_MS;
  }
};
