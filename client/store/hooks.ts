/** How screens read the board and change it. Every hook re-renders for its own record only. */
import { useCallback, useRef, useSyncExternalStore } from "react";
import type { Band, Chair, Gig, Person } from "#shared/board/band.ts";
import type { Board, SongFile } from "#shared/board/board.ts";
import type { Away, Rehearsal } from "#shared/board/rehearsal.ts";
import type { Author, Command, Refusal } from "#shared/commands/command.ts";
import type { Result } from "#shared/lib/result.ts";
import { useBoardContext } from "./board-context.tsx";
import type { BoardKey, BoardStore, OwnChange } from "./board-store.ts";
import type { SaveState } from "./save-state.ts";
import type { SongView } from "./song-view.ts";
import type { Viewpoint } from "./viewpoint.ts";

const useKeyed = <T>(key: BoardKey, read: (store: BoardStore) => T): T => {
  const { store } = useBoardContext();
  const subscribe = useCallback((listener: () => void) => store.subscribe(key, listener), [store, key]);
  return useSyncExternalStore(subscribe, () => read(store));
};

export const useBoardStore = (): BoardStore => useBoardContext().store;
export const useBoardId = (): string => useBoardContext().boardId;
export const useBand = (): Band => useKeyed("band", (store) => store.board().band);
export const useChairs = (): readonly Chair[] => useKeyed("chairs", (store) => store.board().chairs);
export const usePeople = (): ReadonlyMap<string, Person> =>
  useKeyed("people", (store) => store.board().people);
export const useGigs = (): readonly Gig[] => useKeyed("gigs", (store) => store.board().gigs);
/** Evenings anything is known of, by day. */
export const useRehearsals = (): readonly Rehearsal[] =>
  useKeyed("rehearsals", (store) => store.board().rehearsals);
/** Days on which somebody cannot come, by first day. */
export const useAways = (): readonly Away[] => useKeyed("aways", (store) => store.board().aways);
/** What is known of one evening; undefined = nothing. */
export const useRehearsal = (day: string): Rehearsal | undefined =>
  useKeyed("rehearsals", (store) => store.board().rehearsals.find((rehearsal) => rehearsal.day === day));
/** All songs by id; changes with any song. Prefer `useSong` where one will do. */
export const useSongs = (): ReadonlyMap<string, SongFile> =>
  useKeyed("songs", (store) => store.board().songs);
export const useSong = (song: string): SongFile | undefined =>
  useKeyed(`song:${song}`, (store) => store.board().songs.get(song));
/** The whole board; changes with everything. For screens that really show everything. */
export const useWholeBoard = (): Board => useKeyed("board", (store) => store.board());

/** The gig and the day every number on the screen is for, and how to look at another gig. */
export const useViewpoint = (): readonly [Viewpoint, (gig: string | null) => void] => {
  const { viewpoints } = useBoardContext();
  return [useSyncExternalStore(viewpoints.subscribe, viewpoints.current), viewpoints.lookAt];
};

const subscribeView = (
  store: BoardStore,
  song: string,
  viewpoints: { subscribe: (l: () => void) => () => void },
) => {
  return (listener: () => void) => {
    const keys: readonly BoardKey[] = [`song:${song}`, "chairs", "people", "band"];
    const stops = [...keys.map((key) => store.subscribe(key, listener)), viewpoints.subscribe(listener)];
    return () => {
      for (const stop of stops) stop();
    };
  };
};

/** One song with its scores and gates, from the device's viewpoint; null when it is not on the board. */
export const useSongView = (song: string): SongView | null => {
  const { store, viewpoints, songView } = useBoardContext();
  const subscribe = useCallback(
    (listener: () => void) => subscribeView(store, song, viewpoints)(listener),
    [store, song, viewpoints],
  );
  return useSyncExternalStore(subscribe, () => songView(song));
};

/** Reads a song's view without subscribing: for sorting and sums that a `useSongs` already follows. */
export const useReadSongView = (): ((song: string) => SongView | null) => useBoardContext().songView;

/**
 * A slice of one song's view. Re-renders only when the slice changes by `isEqual`; `select` must return
 * a primitive, or a value that `isEqual` can compare.
 */
export const useSongSlice = <T>(
  song: string,
  select: (view: SongView) => T,
  isEqual: (a: T, b: T) => boolean = Object.is,
): T | null => {
  const { store, viewpoints, songView } = useBoardContext();
  const subscribe = useCallback(
    (listener: () => void) => subscribeView(store, song, viewpoints)(listener),
    [store, song, viewpoints],
  );
  const read = useSliceMemo(songView, song, select, isEqual);
  return useSyncExternalStore(subscribe, read);
};

/** Keeps the last slice while it is equal, so that the snapshot's reference is stable. */
const useSliceMemo = <T>(
  songView: (song: string) => SongView | null,
  song: string,
  select: (view: SongView) => T,
  isEqual: (a: T, b: T) => boolean,
): (() => T | null) => {
  const memo = useRef<{ view: SongView | null; select: unknown; slice: T | null } | null>(null);
  return () => {
    const view = songView(song);
    const last = memo.current;
    if (last !== null && last.view === view && last.select === select) return last.slice;
    const next = view === null ? null : select(view);
    const same = last !== null && last.slice !== null && next !== null && isEqual(last.slice, next);
    const slice = same ? last.slice : next;
    memo.current = { view, select, slice };
    return slice;
  };
};

/** Who this device is: member, writer and role. */
export const useAuthor = (): Author => {
  const { identity } = useBoardStore();
  return useSyncExternalStore(identity.subscribe, identity.author);
};

/** Runs a command. The refusal is for the caller to show; `useRunWithToast` of the app shows it for you. */
export const useRun = (): (<A, I>(
  command: Command<A, I>,
  args: NoInfer<I>,
  label: string,
) => Result<OwnChange, Refusal>) => useBoardStore().run;

export const useSaveState = (): SaveState => {
  const { outbox } = useBoardStore();
  return useSyncExternalStore(outbox.subscribe, outbox.saveState);
};

/** One fact of the save state: renders when it changes, and not with every change that is saved. */
export const useSaveFact = <T extends string | number | boolean | null>(
  select: (state: SaveState) => T,
): T => {
  const { outbox } = useBoardStore();
  return useSyncExternalStore(outbox.subscribe, () => select(outbox.saveState()));
};

export const useOwnChanges = (): readonly OwnChange[] => {
  const store = useBoardStore();
  return useSyncExternalStore(store.subscribeChanges, store.changes);
};
