import { useCallback, useEffect, useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useBoardId } from "#client/store/hooks.ts";
import {
  CLOCK_MAX,
  keepListening,
  type Listening,
  readListening,
  SPOTTED_MAX,
  type Spotted,
} from "#shared/selectors/spotting.ts";

export interface OpenListening extends Listening {
  /** Seconds of the record now; 0 while it does not run. */
  readonly now: () => number;
  readonly start: () => void;
  readonly stop: () => void;
  /** Says at how many seconds of the clock bar 1 begins; below 0 where the clock was started late. */
  readonly setLead: (seconds: number) => void;
  /** Drops a detail at this moment; its id, or null when no more can be kept. */
  readonly drop: (what: Pick<Spotted, "chair">) => string | null;
  readonly revise: (id: string, change: Partial<Omit<Spotted, "id">>) => void;
  readonly takeAway: (ids: readonly string[]) => void;
}

/** One song's listening on this device: it goes on after a reload, and what was dropped stays until it is on the board. */
export const useListening = (song: string): OpenListening => {
  const name = `listening.${useBoardId()}.${song}`;
  const [listening, setListening] = useState(() => readListening(recall(name)));
  useEffect(() => remember(name, keepListening(listening)), [name, listening]);
  const { startedAt } = listening;
  const now = useCallback(
    () => (startedAt === null ? 0 : Math.min(CLOCK_MAX, Math.max(0, (Date.now() - startedAt) / 1000))),
    [startedAt],
  );
  const change = (by: (before: Listening) => Listening): void => setListening(by);
  return {
    ...listening,
    now,
    start: () => change((before) => ({ ...before, startedAt: Date.now() })),
    stop: () => change((before) => ({ ...before, startedAt: null })),
    setLead: (lead) =>
      change((before) => ({ ...before, lead: Math.min(CLOCK_MAX, Math.max(-CLOCK_MAX, lead)) })),
    drop: ({ chair }) => {
      if (listening.spotted.length >= SPOTTED_MAX) return null;
      const id = String(1 + Math.max(0, ...listening.spotted.map((each) => Number(each.id) || 0)));
      const spotted: Spotted = { id, clock: now(), chair, kind: "general", text: "" };
      change((before) => ({ ...before, spotted: [...before.spotted, spotted] }));
      return id;
    },
    revise: (id, by) =>
      change((before) => ({
        ...before,
        spotted: before.spotted.map((each) => (each.id === id ? { ...each, ...by } : each)),
      })),
    takeAway: (ids) =>
      change((before) => ({ ...before, spotted: before.spotted.filter(({ id }) => !ids.includes(id)) })),
  };
};
