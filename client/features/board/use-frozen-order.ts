import { useCallback, useMemo, useState } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useAuthor, useBoardStore, useReadSongView, useViewpoint } from "#client/store/hooks.ts";
import { withReady } from "#client/store/ready-of.ts";
import type { BoardChoices } from "#shared/selectors/board-choices.ts";
import { arrangeRows, type OrderNews, orderNews } from "#shared/selectors/board-order.ts";
import { boardRow } from "#shared/selectors/board-row.ts";

type Arrange = (reading: BoardReading) => readonly string[];

const arrange = (
  { board, viewpoint, songView }: BoardReading,
  choices: BoardChoices,
  member: string | null,
): readonly string[] => {
  const rows = [...board.songs.keys()].flatMap((song) => {
    const view = songView(song);
    return view === null ? [] : [boardRow(withReady(view), viewpoint.gig, member)];
  });
  return arrangeRows(rows, choices, viewpoint.endOfToday).map((row) => row.song);
};

const sameNews = (a: OrderNews, b: OrderNews): boolean => a.moved === b.moved && a.fresh === b.fresh;

/** The order as laid out, and what it was laid out for. */
interface LaidOut {
  readonly songs: readonly string[];
  readonly choices: BoardChoices;
  readonly gig: string | null;
  readonly round: number;
}

export interface FrozenOrder {
  /** Song ids in the order they were laid out; a change from elsewhere never moves them. */
  readonly songs: readonly string[];
  readonly arrangeNow: Arrange;
  readonly sortAgain: () => void;
}

/**
 * Lays the songs out when somebody asks for it: by opening the board, choosing otherwise, looking at another gig or
 * sorting again. In between the order stands still, whoever changes what.
 */
export const useFrozenOrder = (choices: BoardChoices): FrozenOrder => {
  const store = useBoardStore();
  const songView = useReadSongView();
  const [viewpoint] = useViewpoint();
  const { member } = useAuthor();
  const [round, setRound] = useState(0);
  const gig = viewpoint.gig?.id ?? null;
  const arrangeNow = useCallback<Arrange>((reading) => arrange(reading, choices, member), [choices, member]);
  const [laidOut, setLaidOut] = useState<LaidOut | null>(null);
  const lay = (): LaidOut => ({
    songs: arrangeNow({ board: store.board(), viewpoint, songView }),
    choices,
    gig,
    round,
  });
  const stands =
    laidOut !== null && laidOut.choices === choices && laidOut.gig === gig && laidOut.round === round;
  const current = stands ? laidOut : lay();
  // Setting state while rendering is React's way to derive it from a change: no frame with the old order is painted.
  if (!stands) setLaidOut(current);
  const sortAgain = useCallback(() => setRound((n) => n + 1), []);
  return useMemo(
    () => ({ songs: current.songs, arrangeNow, sortAgain }),
    [current.songs, arrangeNow, sortAgain],
  );
};

/** What has happened to the order since; renders again only when that changes. */
export const useOrderNews = ({ songs, arrangeNow }: FrozenOrder): OrderNews => {
  const select = useCallback(
    (reading: BoardReading) => orderNews(songs, arrangeNow(reading)),
    [songs, arrangeNow],
  );
  return useBoardSlice(select, sameNews);
};
