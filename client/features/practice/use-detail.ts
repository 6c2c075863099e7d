import { useMemo } from "react";
import { type MyOpenSong, useMySong } from "#client/pieces/my-source.ts";
import { useBand, useSong, useViewpoint } from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { DetailLine } from "#shared/selectors/part-view.ts";
import { type LastPlayed, lastPlayed } from "#shared/selectors/practice-list.ts";
import { type Outcome, outcomeOf } from "#shared/selectors/practice-sitting.ts";

export interface PracticeDetail {
  readonly file: SongFile;
  readonly line: DetailLine;
  readonly last: LastPlayed;
  /** What was said of it today. */
  readonly outcome: Outcome | null;
}

const lineOf = (open: MyOpenSong | null, card: string): DetailLine | undefined =>
  open?.parts.flatMap(({ details }) => details).find((line) => line.card.id === card);

/** One detail as its player practises it; null when it is not theirs, or not there any more. */
export const usePracticeDetail = (song: string, card: string, member: string): PracticeDetail | null => {
  const open = useMySong(song, member);
  const file = useSong(song);
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  return useMemo(() => {
    const line = lineOf(open, card);
    if (line === undefined || file === undefined) return null;
    const last = lastPlayed(file, line.card, member, { today, timeZone });
    return { file, line, last, outcome: outcomeOf(file, card, member, today) };
  }, [open, file, card, member, today, timeZone]);
};
