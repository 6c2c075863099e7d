import { memo, useCallback } from "react";
import { mySource } from "#client/pieces/my-source.ts";
import { useBoardStore, useSongSlice, useViewpoint } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import type { Song } from "#shared/board/song.ts";
import { type MyHead, myHead, openWords, sameHead } from "#shared/selectors/my-parts.ts";
import { MySongOpen, type MySongOpenProps } from "./my-song-open.tsx";

export interface MySongProps extends MySongOpenProps {
  readonly open: boolean;
  readonly onToggle: (song: string, open: boolean) => void;
  /** Details that came since somebody looked. */
  readonly news: number;
  /** The member's score is theirs and the leader's to see. */
  readonly showScore: boolean;
}

interface HeadReading {
  readonly song: Song;
  readonly head: MyHead | null;
}

const sameReading = (a: HeadReading, b: HeadReading): boolean =>
  a.song === b.song &&
  (a.head === b.head || (a.head !== null && b.head !== null && sameHead(a.head, b.head)));

const factsOf = ({ key, tempo, countIn }: Song): string =>
  [key, tempo === null ? "" : String(tempo), countIn].filter((fact) => fact !== "").join(" · ");

/** One song of the list, folded to the line that a player needs before the count-in. */
export const MySong = memo(({ open, onToggle, news, showScore, ...rest }: MySongProps) => {
  const { song, member } = rest;
  const { readiness } = useBoardStore();
  const [{ gig }] = useViewpoint();
  const select = useCallback(
    (view: SongView): HeadReading => {
      const source = mySource(view, member, gig, readiness);
      return { song: view.file.song, head: source === null ? null : myHead(source, member) };
    },
    [member, gig, readiness],
  );
  const reading = useSongSlice(song, select, sameReading);
  if (reading === null) return null;
  const { head } = reading;
  return (
    <li data-song={song}>
      <Accordion
        size="room"
        open={open}
        onToggle={(now) => onToggle(song, now)}
        summary={
          <span className="flex items-center gap-3 py-2">
            <span className="min-w-0 flex-1">
              <b className="block font-semibold">{reading.song.title}</b>
              <span className="block text-quiet">{factsOf(reading.song) || "not settled yet"}</span>
              <span className="block">
                {head === null ? "tacet" : openWords(head)}
                {news > 0 ? <b className="text-accent"> · {news} new</b> : null}
              </span>
            </span>
            {showScore && head !== null && head.own !== null ? (
              <span className="text-title">
                {head.own}
                <span className="sr-only"> of 100: how far this player is with the song</span>
              </span>
            ) : null}
          </span>
        }
      >
        <MySongOpen {...rest} />
      </Accordion>
    </li>
  );
});
