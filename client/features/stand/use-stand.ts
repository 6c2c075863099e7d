import { useCallback, useEffect, useRef, useState } from "react";
import { recall } from "#client/pieces/device-memory.ts";
import { flagSong, useGigFlags } from "#client/pieces/gig-flags.ts";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useAuthor, useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { standNight } from "#shared/selectors/stand.ts";
import { changeOnStand, placeAfter, songInHand, stepOnStand } from "#shared/selectors/stand-place.ts";
import { type Frozen, freeze, keepNight, keptNight } from "./frozen-night.ts";
import { type StandAction, standAction } from "./stand-keys.ts";

export interface OpenStand {
  readonly frozen: Frozen;
  /** What the board says differently, in one line; empty = nothing. */
  readonly change: string;
  /** Whether it can be taken over: the gig is still on. */
  readonly there: boolean;
  /** The song a flag is for; null before the first one. */
  readonly inHand: string | null;
  readonly flagged: boolean;
  readonly act: (action: StandAction) => void;
  /** The night as it is on the board now, from its first song. */
  readonly beginAgain: () => void;
}

/** One night on stage. Null when the gig is neither on the board nor kept here. */
export const useOpenStand = (gig: string): OpenStand | null => {
  const store = useBoardStore();
  const board = useBoardId();
  const { member } = useAuthor();
  const name = `stand.${board}.${gig}.${member ?? "everybody"}`;
  const [frozen, setFrozen] = useState<Frozen | null>(() => keptNight(name, store.now()));
  const there = useBoardSlice(
    useCallback(({ board: { gigs } }: BoardReading) => gigs.some(({ id }) => id === gig), [gig]),
  );
  // It may reach this device after the screen was opened.
  if (frozen === null && there) {
    const night = standNight(store.board(), gig, member);
    if (night !== null) setFrozen(freeze(night, store.now()));
  }
  useEffect(() => {
    if (frozen !== null) keepNight(name, frozen);
  }, [name, frozen]);
  const night = frozen?.night ?? null;
  const change = useBoardSlice(
    useCallback(
      (reading: BoardReading) =>
        night === null ? "" : changeOnStand(night, standNight(reading.board, gig, member)),
      [night, gig, member],
    ),
  );
  const flags = useGigFlags(board, gig);
  if (frozen === null) return null;
  const { songs } = frozen.night;
  const inHand = songInHand(songs, frozen.place)?.id ?? null;
  const flagged = flags.some(({ song }) => song === inHand);
  const takeOver = (): void => {
    const now = standNight(store.board(), gig, member);
    if (now !== null)
      setFrozen({ night: now, place: placeAfter(songs, now.songs, frozen.place), at: store.now() });
  };
  const beginAgain = (): void =>
    setFrozen(freeze(standNight(store.board(), gig, member) ?? frozen.night, store.now()));
  const act = (action: StandAction): void => {
    if (action === "take over") takeOver();
    else if (action === "flag") {
      if (inHand !== null) flagSong(board, gig, inHand, flagged ? null : store.now());
    } else setFrozen({ ...frozen, place: stepOnStand(songs, frozen.place, action) });
  };
  return { frozen, change, there, inHand, flagged, act, beginAgain };
};

const onControl = (target: EventTarget | null): boolean =>
  // A button that was tapped keeps the focus; only one that the keyboard walked to is pressed by keys.
  target instanceof Element && target.closest("button:focus-visible, a:focus-visible") !== null;

/** Listens for keys and pedals while the stand is open. */
export const useStandKeys = (act: (action: StandAction) => void): void => {
  const latest = useRef(act);
  useEffect(() => {
    latest.current = act;
  });
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.defaultPrevented) return;
      const { key, repeat } = event;
      const modified = event.ctrlKey || event.altKey || event.metaKey;
      const letters = recall("pedal") !== "off";
      const action = standAction({ key, repeat, modified }, onControl(event.target), letters);
      if (action === null) return;
      event.preventDefault();
      if (action !== "held") latest.current(action);
    };
    document.addEventListener("keydown", onKeyDown);
    return () => document.removeEventListener("keydown", onKeyDown);
  }, []);
};
