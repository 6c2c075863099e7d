import { useCallback, useState } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useViewpoint } from "#client/store/hooks.ts";
import { type MySongs, mySongs, sameMySongs, sameSongs } from "#shared/selectors/my-parts.ts";

export interface HeldSongs {
  /** In the order they had when the screen was opened. */
  readonly held: MySongs;
  /** As they are now. */
  readonly live: MySongs;
  /** Songs came, went or moved meanwhile. */
  readonly stale: boolean;
  readonly refresh: () => void;
}

/** A member's songs in an order that holds still while the screen is open, whoever changes what. */
export const useMySongs = (member: string): HeldSongs => {
  const [{ gig }] = useViewpoint();
  const read = useCallback(
    ({ board, viewpoint }: BoardReading) => mySongs(board, viewpoint.gig, member),
    [member],
  );
  const live = useBoardSlice(read, sameMySongs);
  const key = gig?.id ?? "";
  const [laidOut, setLaidOut] = useState({ key, songs: live });
  const held = laidOut.key === key ? laidOut.songs : live;
  // Looking at another gig lays the songs out again; React's way to derive state from a change.
  if (laidOut.key !== key) setLaidOut({ key, songs: live });
  return {
    held,
    live,
    stale: !sameSongs(held, live),
    refresh: () => setLaidOut({ key, songs: live }),
  };
};
