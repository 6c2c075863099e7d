import { useEffect, useLayoutEffect } from "react";
import * as v from "valibot";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useBoardId, useViewpoint } from "#client/store/hooks.ts";

const PLACE = v.object({ day: v.string(), song: v.string(), y: v.number() });
type Place = v.InferOutput<typeof PLACE>;

const nameOf = (board: string): string => `room.${board}`;

const kept = (board: string, day: string): Place | null => {
  try {
    const read = v.safeParse(PLACE, JSON.parse(recall(nameOf(board)) ?? ""));
    return read.success && read.output.day === day ? read.output : null;
  } catch {
    return null;
  }
};

/** The song that was open in the room last this evening, on this device; null = none yet. */
export const useLastSong = (): string | null => {
  const board = useBoardId();
  const [{ today }] = useViewpoint();
  return kept(board, today)?.song ?? null;
};

/** How long (ms) a scroll has to rest before it is written down. */
const REST_MS = 150;

/** Keeps for the evening which song is open and how far it was scrolled, over a lock or a reload. */
export const useRoomPlace = (song: string): void => {
  const board = useBoardId();
  const [{ today }] = useViewpoint();
  useLayoutEffect(() => {
    const place = kept(board, today);
    if (place?.song === song) window.scrollTo(0, place.y);
  }, [board, today, song]);
  useEffect(() => {
    let timer = 0;
    const keep = (): void =>
      remember(nameOf(board), JSON.stringify({ day: today, song, y: Math.round(window.scrollY) }));
    const soon = (): void => {
      window.clearTimeout(timer);
      timer = window.setTimeout(keep, REST_MS);
    };
    keep();
    window.addEventListener("scroll", soon, { passive: true });
    window.addEventListener("pagehide", keep);
    return () => {
      window.clearTimeout(timer);
      window.removeEventListener("scroll", soon);
      window.removeEventListener("pagehide", keep);
    };
  }, [board, today, song]);
};
