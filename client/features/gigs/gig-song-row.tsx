import SlidersHorizontal from "lucide-react/icons/sliders-horizontal";
import X from "lucide-react/icons/x";
import type { KeyboardEvent } from "react";
import { songLink } from "#client/pieces/links.ts";
import { StepButtons } from "#client/pieces/step-buttons.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useSong } from "#client/store/hooks.ts";
import { IconButton } from "#client/ui/icon-button.tsx";
import type { GigSong } from "#shared/board/band.ts";
import type { Song } from "#shared/board/song.ts";
import { formatLength } from "#shared/music/duration.ts";
import type { OutlookSong } from "#shared/selectors/gig-outlook.ts";

export interface GigSongRowProps {
  readonly entry: GigSong;
  readonly reading: OutlookSong;
  readonly place: number;
  readonly count: number;
  /** The gig lies ahead: what is not ready matters. */
  readonly ahead: boolean;
  /** Shows what moves, tunes and drops the song. */
  readonly arranging: boolean;
  readonly onMove: (by: -1 | 1) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onTune: () => void;
  readonly onDrop: () => void;
}

/** Key, tempo, tuning and length of the night; what differs from the song's own says so. */
const nightFacts = (song: Song, entry: GigSong): string => {
  const key = entry.key === null ? song.key : `${entry.key} that night`;
  const tempo = entry.tempo ?? song.tempo;
  return [
    key,
    tempo === null ? "" : `${tempo}${entry.tempo === null ? "" : " that night"}`,
    entry.tuning === null ? "" : `${entry.tuning} that night`,
    song.length === null ? "no length" : formatLength(song.length),
  ]
    .filter((fact) => fact !== "")
    .join(" · ");
};

const verdict = ({ ready, waived }: OutlookSong): string =>
  ready ? `ready${waived > 0 ? `, ${waived} let pass` : ""}` : "not ready";

/** One song of the running order; what is in its way stands in the list of those below the line. */
export const GigSongRow = ({ entry, reading, place, count, ...props }: GigSongRowProps) => {
  const href = useHref();
  const song = useSong(entry.song)?.song;
  if (song === undefined) return null;
  return (
    <li
      onKeyDown={props.arranging ? props.onKeyDown : undefined}
      className="flex flex-wrap items-center gap-x-3 border-b border-line py-1.5 laptop:flex-nowrap"
    >
      <span className="w-6 shrink-0 text-right text-quiet">{place + 1}</span>
      <div className="min-w-0 flex-1">
        <a
          href={href(songLink(song.id))}
          className="inline-flex min-h-11 items-center decoration-control underline-offset-4 hover:underline dense:min-h-6"
        >
          {song.title}
        </a>
        <p className="caption">{nightFacts(song, entry)}</p>
        {props.ahead ? (
          <p className={reading.ready ? "text-small font-semibold" : "text-small"}>{verdict(reading)}</p>
        ) : null}
      </div>
      {props.arranging ? (
        <div className="flex w-full shrink-0 justify-end laptop:w-auto">
          <StepButtons
            name={song.title}
            first={place === 0}
            last={place === count - 1}
            onMove={props.onMove}
          />
          <IconButton
            icon={SlidersHorizontal}
            label={`Key, tempo and tuning of ${song.title} that night`}
            onClick={props.onTune}
          />
          <IconButton icon={X} label={`Drop ${song.title} from this gig`} onClick={props.onDrop} />
        </div>
      ) : null}
    </li>
  );
};
