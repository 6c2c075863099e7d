import type { HistoryEntry } from "#shared/history/entries.ts";
import { foldingHistory, type History, type HistoryRow } from "#shared/history/history.ts";
import { type HistoryLine, historyLines } from "#shared/selectors/history/history-lines.ts";

/** How long (ms) reading may hold the page before it rests: well within a frame, so that scrolling stays smooth. */
const SLICE_MS = 8;
/** Entries put into words between two rests; each such run starts with a walk to its first entry. */
const WORDED = 40;

const rest = async (signal: AbortSignal): Promise<void> => {
  await new Promise<void>((done) => setTimeout(done));
  signal.throwIfAborted();
};

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
    await rest(signal);
    until = performance.now() + SLICE_MS;
  }
};

/** Puts entries into words without holding the page; in their order. */
export const linesAwake = async (
  history: History,
  entries: readonly HistoryEntry[],
  signal: AbortSignal,
): Promise<readonly HistoryLine[]> => {
  const lines: HistoryLine[] = [];
  for (let from = 0; from < entries.length; from += WORDED) {
    await rest(signal);
    lines.push(...historyLines(history, entries.slice(from, from + WORDED)));
  }
  return lines;
};
