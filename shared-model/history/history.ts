/**
 * A board's past: the stored updates of its document, folded into steps that say which key went from what to what.
 * Governing rule: total. A row that cannot be read changes nothing and is reported; the others keep their meaning.
 */
import { createUpdateFolder } from "../document/fold-updates.ts";
import { createValueStore, type KeyChange, type StoredValues } from "../document/stored-values.ts";

/** One update as the server stored it. */
export interface HistoryRow {
  readonly seq: number;
  /** Moment (ms, server clock) it was stored. */
  readonly at: number;
  /** Device that sent it; `server` for what the server wrote itself. */
  readonly device: string;
  /** Person of that device, as far as the server knows; null or empty = unknown. */
  readonly member: string | null;
  /** Yjs update. */
  readonly bytes: Uint8Array;
}

/** What one row changed. */
export interface HistoryStep extends Omit<HistoryRow, "bytes"> {
  readonly changes: readonly KeyChange[];
}

/** A row that could not be used, or not yet. */
export interface HistoryIssue {
  /** Row; null = the state before all rows. */
  readonly seq: number | null;
  /** One sentence for people. */
  readonly message: string;
}

export interface History {
  /** What stood before the first step. */
  readonly start: StoredValues;
  /** By seq, ascending. */
  readonly steps: readonly HistoryStep[];
  /** What stands after the last step. */
  readonly end: StoredValues;
  readonly issues: readonly HistoryIssue[];
}

const UNREADABLE =
  "This step of the history is damaged. What it changed cannot be shown; the board is not harmed.";
const EARLY =
  "This step was stored before a change it builds on. What it changed is shown with the step that completed it.";

/**
 * Folds rows on top of a base state, one update per step of the generator, so that a screen can rest in between. A row
 * that lacks something it builds on has its changes in the later step that brings it.
 * @param base Yjs updates of the state before the first row, in order; none = an empty document
 * @param rows in any order; of rows with one number the first counts
 */
export function* foldingHistory(
  base: readonly Uint8Array[],
  rows: readonly HistoryRow[],
): Generator<undefined, History> {
  const folder = createUpdateFolder();
  const issues: HistoryIssue[] = [];
  const apply = (seq: number | null, bytes: Uint8Array): readonly KeyChange[] => {
    const { changes, problem } = folder.apply(bytes);
    if (problem !== null) issues.push({ seq, message: problem === "early" ? EARLY : UNREADABLE });
    return changes;
  };
  for (const bytes of base) {
    if (bytes.length > 0) apply(null, bytes);
    yield;
  }
  const start = createValueStore(folder.values);
  const seen = new Set<number>();
  const steps: HistoryStep[] = [];
  for (const { bytes, ...row } of [...rows].sort((a, b) => a.seq - b.seq)) {
    if (seen.has(row.seq)) continue;
    seen.add(row.seq);
    steps.push({ ...row, changes: apply(row.seq, bytes) });
    yield;
  }
  return { start, steps, end: createValueStore(folder.values), issues };
}

/** Folds rows on top of a base state in one go; see `foldingHistory`. A base of null is an empty document. */
export const foldHistory = (base: Uint8Array | null, rows: readonly HistoryRow[]): History => {
  const folding = foldingHistory(base === null ? [] : [base], rows);
  for (;;) {
    const { done, value } = folding.next();
    if (done) return value;
  }
};
