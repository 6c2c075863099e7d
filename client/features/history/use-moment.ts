import { useEffect, useState } from "react";
import { type AccessProblem, useBandAccess } from "#client/store/band-access.ts";
import { useBoardId } from "#client/store/hooks.ts";
import type { Board } from "#shared/board/board.ts";
import type { StoredValues } from "#shared/document/stored-values.ts";
import { boardAt } from "#shared/history/past-boards.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import { foldAwake } from "./fold-awake.ts";

/** The board as it stood at one moment. */
export interface Moment {
  /** Server clock, ms; null = before anything was stored. */
  readonly at: number | null;
  readonly board: Board;
  /** What was stored then. */
  readonly values: StoredValues;
}

const BROKEN: AccessProblem = {
  message: "This moment cannot be read. Choose an earlier or a later one.",
  retriable: false,
};

/** Fetches and folds the state of one season's document right after a row; null while that takes. */
export const useMoment = (
  document: string,
  seq: number,
  tries: number,
): Result<Moment, AccessProblem> | null => {
  const access = useBandAccess();
  const board = useBoardId();
  const [moment, setMoment] = useState<Result<Moment, AccessProblem> | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another try asks again for the same thing
  useEffect(() => {
    const stop = new AbortController();
    const load = async (): Promise<Result<Moment, AccessProblem>> => {
      const rows = await access.historyState(board, document, seq);
      if (!rows.ok) return rows;
      const history = await foldAwake([], rows.value, stop.signal);
      const last = history.steps.at(-1);
      return ok({ at: last?.at ?? null, board: boardAt(history, last?.seq ?? 0), values: history.end });
    };
    setMoment(null);
    load()
      .catch(() => err(BROKEN))
      .then((loaded) => {
        if (!stop.signal.aborted) setMoment(loaded);
      });
    return () => stop.abort();
  }, [access, board, document, seq, tries]);
  return moment;
};
