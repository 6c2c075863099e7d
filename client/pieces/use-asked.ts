import { useCallback, useEffect, useRef, useState } from "react";
import type { AccessAnswer, AccessProblem } from "#client/store/band-access.ts";
import type { Result } from "#shared/lib/result.ts";

/** What the server was asked for: null until it has answered once. */
export interface Asked<T> {
  readonly answer: Result<T, AccessProblem> | null;
  /** Asks again; what was answered before stays in sight meanwhile. */
  readonly again: () => AccessAnswer<T>;
}

/**
 * Asks the server when the screen opens, and again by itself when the network is back after a try that failed, and
 * every `everyMs` while somebody looks. `ask` must keep its reference while it asks for the same thing.
 */
export const useAsked = <T>(ask: () => AccessAnswer<T>, everyMs?: number): Asked<T> => {
  const [answer, setAnswer] = useState<Result<T, AccessProblem> | null>(null);
  const current = useRef(0);
  const again = useCallback(async () => {
    current.current += 1;
    const mine = current.current;
    const got = await ask();
    // An answer that was overtaken by a later one is out of date.
    if (mine === current.current) setAnswer(got);
    return got;
  }, [ask]);
  useEffect(() => {
    void again();
    return () => {
      current.current += 1;
    };
  }, [again]);
  useEffect(() => {
    if (everyMs === undefined) return;
    const timer = window.setInterval(() => {
      if (document.visibilityState === "visible") void again();
    }, everyMs);
    return () => window.clearInterval(timer);
  }, [everyMs, again]);
  const failed = answer !== null && !answer.ok && answer.error.retriable;
  useEffect(() => {
    if (!failed) return;
    const online = () => void again();
    window.addEventListener("online", online);
    return () => window.removeEventListener("online", online);
  }, [failed, again]);
  return { answer, again };
};
