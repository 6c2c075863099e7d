import { useCallback, useEffect, useSyncExternalStore } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useBoardId, useBoardStore, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { flagSlip } from "#shared/commands/flag-slip.ts";
import type { DraftSlip } from "#shared/selectors/take-draft.ts";
import { keepWaiting, keptWaiting, takeForSlip, type WaitingSlip } from "#shared/selectors/waiting-slips.ts";

const listeners = new Set<() => void>();

const nameOf = (board: string): string => `slips.${board}`;

const keep = (board: string, day: string, slips: readonly WaitingSlip[]): void => {
  remember(nameOf(board), keepWaiting(day, slips));
  for (const changed of listeners) changed();
};

/** Lets slips of a song wait for the take that somebody else logs. */
export const useWait = (): ((song: string, slips: readonly DraftSlip[]) => void) => {
  const board = useBoardId();
  const store = useBoardStore();
  const [{ today }] = useViewpoint();
  return useCallback(
    (song, slips) => {
      const waiting = keptWaiting(recall(nameOf(board)) ?? "", today);
      keep(board, today, [...waiting, ...slips.map((slip) => ({ ...slip, song, at: store.now() }))]);
    },
    [board, store, today],
  );
};

/** Hands waiting slips over as soon as their take is there; says how many still wait. */
export const useWaitingSlips = (): number => {
  const board = useBoardId();
  const songs = useSongs();
  const act = useAct();
  const [{ today }] = useViewpoint();
  const text = useSyncExternalStore(
    (changed) => {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
    () => recall(nameOf(board)) ?? "",
  );
  useEffect(() => {
    const waiting = keptWaiting(text, today);
    const left = waiting.filter((slip) => {
      const file = songs.get(slip.song);
      const take = file === undefined ? null : takeForSlip(file, slip, today);
      if (file === undefined || take === null) return true;
      const { song, chair, card, severity } = slip;
      return !act(
        flagSlip,
        { song, take: take.id, chair, card, severity },
        `${file.song.title}: your slip is in the take`,
      );
    });
    if (left.length < waiting.length) keep(board, today, left);
  }, [text, songs, today, act, board]);
  return keptWaiting(text, today).length;
};
