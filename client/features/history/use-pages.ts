import { startTransition, useCallback, useEffect, useRef, useState } from "react";
import { type AccessProblem, type BandAccess, useBandAccess } from "#client/store/band-access.ts";
import { useBoardId } from "#client/store/hooks.ts";
import { entriesOf } from "#shared/history/entries.ts";
import type { History } from "#shared/history/history.ts";
import { ok, type Result } from "#shared/lib/result.ts";
import type { HistoryLine } from "#shared/selectors/history/history-lines.ts";
import { foldAwake, linesAwake } from "./fold-awake.ts";

/** Rows fetched and folded at once: about an evening of a band, and a moment's work for a phone. */
const ROWS = 300;

/** A stretch of a season, folded by itself on top of what stood before it. */
export interface Page {
  readonly history: History;
  /** First row. */
  readonly from: number;
  /** Moment (ms) of its first row. */
  readonly since: number;
  /** Latest first. */
  readonly lines: readonly HistoryLine[];
}

export interface Pages {
  /** Latest first. */
  readonly pages: readonly Page[];
  /** True when there is nothing further back. */
  readonly whole: boolean;
  readonly busy: boolean;
  readonly problem: AccessProblem | null;
  readonly loadEarlier: () => void;
}

/** The page before row `before`; null = there is none. */
const loadPage = async (
  access: BandAccess,
  board: string,
  document: string,
  before: number | null,
  signal: AbortSignal,
): Promise<Result<Page | null, AccessProblem>> => {
  const rows = await access.historyRows(board, document, {
    limit: ROWS,
    ...(before === null ? {} : { before }),
  });
  if (!rows.ok) return rows;
  const [first] = rows.value;
  if (first === undefined) return ok(null);
  const base = await access.historyState(board, document, first.seq - 1);
  if (!base.ok) return base;
  const history = await foldAwake(base.value, rows.value, signal);
  const lines = [...(await linesAwake(history, entriesOf(history), signal))].reverse();
  return ok({ history, from: first.seq, since: first.at, lines });
};

/** The history of one season, read backwards page by page. */
export const usePages = (document: string): Pages => {
  const access = useBandAccess();
  const board = useBoardId();
  const [pages, setPages] = useState<readonly Page[]>([]);
  const [whole, setWhole] = useState(false);
  const [busy, setBusy] = useState(true);
  const [problem, setProblem] = useState<AccessProblem | null>(null);
  const stop = useRef<AbortController | null>(null);
  const load = useCallback(
    async (before: number | null) => {
      const mine = new AbortController();
      stop.current?.abort();
      stop.current = mine;
      setBusy(true);
      setProblem(null);
      const page = await loadPage(access, board, document, before, mine.signal).catch((error: unknown) => {
        if (mine.signal.aborted) return null;
        throw error;
      });
      if (mine.signal.aborted || page === null) return;
      // Hundreds of rows are drawn in slices, so that a thumb that scrolls meanwhile is not held up.
      startTransition(() => {
        setBusy(false);
        if (!page.ok) return setProblem(page.error);
        const found = page.value;
        if (found === null) setWhole(true);
        else setPages((now) => (before === null ? [found] : [...now, found]));
      });
    },
    [access, board, document],
  );
  useEffect(() => {
    void load(null);
    return () => stop.current?.abort();
  }, [load]);
  const oldest = pages.at(-1)?.from ?? null;
  return { pages, whole, busy, problem, loadEarlier: () => void load(oldest) };
};
