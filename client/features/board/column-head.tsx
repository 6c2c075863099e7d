import { memo, useCallback } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useAuthor, usePeople, useViewpoint } from "#client/store/hooks.ts";
import { columnHeadRole } from "#client/ui/grid-roles.ts";
import type { Chair } from "#shared/board/band.ts";
import { seatKept, seatMeant } from "#shared/board/line-up.ts";
import { maySeeMember, memberState } from "#shared/selectors/member-state.ts";
import { pointsOf } from "#shared/selectors/points.ts";

export interface ColumnHeadProps {
  readonly chair: Chair;
  readonly column: number;
  /** The songs shown, whose mean is the member's own state. */
  readonly songs: readonly string[];
}

/** Today's and the night's points of a member over songs, as one comparable text; null where it is not to be seen. */
const useOwnState = (songs: readonly string[], member: string | null): string | null => {
  const author = useAuthor();
  const seen = maySeeMember(author, member) ? member : null;
  const select = useCallback(
    ({ songView }: BoardReading): string | null => {
      if (seen === null) return null;
      const state = memberState(
        songs.flatMap((song) => songView(song) ?? []),
        seen,
      );
      return state === null ? null : `${pointsOf(state.today)} → ${pointsOf(state.night)} %`;
    },
    [songs, seen],
  );
  return useBoardSlice(select);
};

/** A chair with whoever holds it on the night; their own state for their eyes and the leader's. */
export const ColumnHead = memo(({ chair, column, songs }: ColumnHeadProps) => {
  const people = usePeople();
  const [{ gig }] = useViewpoint();
  const seat = seatKept(seatMeant(chair, gig), { people }, gig);
  const holder = seat === null ? undefined : people.get(seat);
  const state = useOwnState(songs, holder?.id ?? null);
  return (
    <div
      {...columnHeadRole(column)}
      className="flex min-w-0 flex-1 basis-0 flex-col justify-end overflow-hidden px-2 py-1"
    >
      <span className="line-clamp-2 font-semibold" title={chair.name}>
        {chair.name}
      </span>
      <span className="caption block truncate" title={holder?.name}>
        {holder === undefined ? <span className="expression">nobody</span> : holder.name}
        {holder !== undefined && holder.id !== chair.holder ? <span> (stands in)</span> : null}
      </span>
      <span className="caption block truncate">
        {state === null ? null : (
          <>
            <span className="sr-only">own state today and on the night: </span>
            {state}
          </>
        )}
      </span>
    </div>
  );
});
ColumnHead.displayName = "ColumnHead";
