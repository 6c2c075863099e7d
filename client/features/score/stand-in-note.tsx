import { useMemo } from "react";
import { useBoardStore } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { lineUpFor } from "#shared/board/line-up.ts";
import { pointsOf } from "#shared/selectors/points.ts";

/**
 * Says what the night's line-up changes against the usual one, because replacing a player can raise a score as well
 * as lower it. Nothing where it changes less than a point.
 */
export const StandInNote = ({ view }: { readonly view: SongView }) => {
  const store = useBoardStore();
  const usual = useMemo(() => {
    const board = store.board();
    return store.readiness.scoreSong({ ...view.input, lineUp: lineUpFor(board, view.file, null) }).score;
  }, [store, view]);
  const points = pointsOf(view.night.score - usual);
  if (points === 0) return null;
  return (
    <p className="mt-3">
      With this night's line-up the song stands {Math.abs(points)}{" "}
      {Math.abs(points) === 1 ? "point" : "points"} {points > 0 ? "higher" : "lower"} than with the usual one.
    </p>
  );
};
