import { useCallback } from "react";
import { usePeople, useSongSlice } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import type { Chair } from "#shared/board/band.ts";
import { PartBar } from "./part-bar.tsx";
import { PeopleHere } from "./people-here.tsx";
import { usePartSummary } from "./use-part-summary.ts";

export interface PartRowProps {
  readonly song: string;
  readonly chair: Chair;
  /** Its part is open. */
  readonly open: boolean;
  readonly onOpen: () => void;
}

/** One part of an opened song: the chair, who plays it that night, and how it stands. */
export const PartRow = ({ song, chair, open, onOpen }: PartRowProps) => {
  const cell = usePartSummary(song, chair);
  const people = usePeople();
  const seatOf = useCallback(({ lineUp }: SongView) => lineUp.get(chair.id) ?? "", [chair.id]);
  const seat = useSongSlice(song, seatOf);
  if (cell === null) return null;
  return (
    <li className="border-b border-line last:border-0">
      <button
        type="button"
        onClick={onOpen}
        aria-current={open ? "true" : undefined}
        className="flex min-h-14 w-full items-center gap-3 py-1 text-left -outline-offset-2"
      >
        <span className="w-28 shrink-0">
          <span className="block truncate font-semibold">{chair.name}</span>
          <span className="caption block truncate">{people.get(seat ?? "")?.name ?? "nobody"}</span>
        </span>
        <span className="min-w-0 flex-1">
          <PartBar cell={cell} />
        </span>
        <PeopleHere song={song} chair={chair.id} className="shrink-0" />
      </button>
    </li>
  );
};
