import { err, type Result } from "#shared/lib/result.ts";
import type { ApiProblem } from "./api-problem.ts";

export interface Patience {
  /** Called with each problem that another try may solve; the call is tried again by itself. */
  readonly onProblem?: (problem: ApiProblem) => void;
  /** Stops waiting. */
  readonly signal?: AbortSignal;
}

/** Wait (ms) between two tries while the server cannot be reached; the network's return cuts it short. */
const RETRY_MS = 5000;

/** Calls again until the server gives an answer that another try would not change. */
export const untilAnswered = async <T>(
  call: () => Promise<Result<T, ApiProblem>>,
  { onProblem, signal }: Patience,
): Promise<Result<T, ApiProblem>> => {
  for (;;) {
    const answer = await call();
    if (answer.ok || !answer.error.retriable) return answer;
    onProblem?.(answer.error);
    // Whoever was told to wait may have given up at once.
    if (!signal?.aborted) await pause(RETRY_MS, signal);
    if (signal?.aborted) return err(answer.error);
  }
};

/** Waits, but no longer than until the network is back or nobody waits any more. */
export const pause = (ms: number, signal: AbortSignal | undefined): Promise<void> =>
  new Promise((resolve) => {
    const done = (): void => {
      clearTimeout(timer);
      globalThis.removeEventListener?.("online", done);
      signal?.removeEventListener("abort", done);
      resolve();
    };
    const timer = setTimeout(done, ms);
    globalThis.addEventListener?.("online", done);
    signal?.addEventListener("abort", done);
  });
