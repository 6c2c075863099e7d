import ChevronRight from "lucide-react/icons/chevron-right";
import { memo, useId, useState } from "react";
import { namedLink, songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongSlice } from "#client/store/hooks.ts";
import { classNames } from "#client/ui/class-names.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Chair } from "#shared/board/band.ts";
import type { OpenPart } from "./board-grid.tsx";
import { PartRow } from "./part-row.tsx";
import { ScoreFigure } from "./score-figure.tsx";
import { readySlice, sameReady, sameScore, sameTitle, scoreSlice, titleSlice } from "./slices.ts";

export interface SongListProps {
  /** Song ids in the order to show. */
  readonly songs: readonly string[];
  readonly chairs: readonly Chair[];
  readonly onOpenPart: (song: string, chair: string) => void;
  readonly onOpenScore: (song: string) => void;
  readonly openPart: OpenPart | null;
}

const Reason = ({ song }: { readonly song: string }) => {
  const href = useHref();
  const slice = useSongSlice(song, readySlice, sameReady);
  if (slice === null) return null;
  if (slice.reason === null) {
    return (
      <p className="pb-2 pl-7 font-semibold">ready{slice.waived > 0 ? `, ${slice.waived} waived` : ""}</p>
    );
  }
  return (
    <a
      href={href(namedLink(slice.reason.names))}
      className="flex min-h-12 items-center pb-1 pl-7 text-small decoration-control underline-offset-4 hover:underline"
    >
      <span>
        <span className="sr-only">Not ready: </span>
        {slice.reason.sentence}
      </span>
    </a>
  );
};

const SongItem = memo((props: Omit<SongListProps, "songs"> & { readonly song: string }) => {
  const { song, chairs, onOpenPart, onOpenScore, openPart } = props;
  const title = useSongSlice(song, titleSlice, sameTitle);
  const score = useSongSlice(song, scoreSlice, sameScore);
  const [open, setOpen] = useState(openPart?.song === song);
  const id = useId();
  const href = useHref();
  return (
    <li className="border-b border-line [contain-intrinsic-block-size:auto_6.5rem] [content-visibility:auto]">
      <div className="flex items-start gap-2">
        <h2 className="min-w-0 flex-1">
          <button
            type="button"
            aria-expanded={open}
            aria-controls={id}
            onClick={() => setOpen(!open)}
            className="flex min-h-12 w-full items-center gap-2 text-left -outline-offset-2"
          >
            <ChevronRight
              aria-hidden="true"
              size={18}
              strokeWidth={1.75}
              className={classNames("text-quiet", open && "rotate-90")}
            />
            <span className="min-w-0 flex-1">
              <span className="block font-semibold">{title?.title ?? "Taken off the board"}</span>
              <span className="caption expression block">{title?.stage}</span>
            </span>
          </button>
        </h2>
        {score === null ? null : (
          <button
            type="button"
            onClick={() => onOpenScore(song)}
            className="min-h-12 shrink-0 px-1 text-right -outline-offset-2"
          >
            <ScoreFigure score={score} />
          </button>
        )}
      </div>
      <Reason song={song} />
      <div id={id} className="pl-7">
        {open ? (
          <>
            <ul>
              {chairs.map((chair) => (
                <PartRow
                  key={chair.id}
                  song={song}
                  chair={chair}
                  open={openPart?.song === song && openPart.chair === chair.id}
                  onOpen={() => onOpenPart(song, chair.id)}
                />
              ))}
            </ul>
            <TextLink standing href={href(songLink(song))}>
              The song: form, key, ending
            </TextLink>
          </>
        ) : null}
      </div>
    </li>
  );
});
SongItem.displayName = "SongItem";

/** The board on a phone: songs as lines, the parts of an opened one below it. Never a shrunk matrix. */
export const SongList = ({ songs, ...rest }: SongListProps) => (
  <ul>
    {songs.map((song) => (
      <SongItem key={song} song={song} {...rest} />
    ))}
  </ul>
);
