/** The first three cells of a row: the song, whether it is ready, and its score. Each follows its own slice. */
import { memo } from "react";
import { namedLink, songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongSlice } from "#client/store/hooks.ts";
import { classNames } from "#client/ui/class-names.ts";
import { cellRole, rowHeadRole } from "#client/ui/grid-roles.ts";
import { ScoreFigure } from "./score-figure.tsx";
import { readySlice, sameReady, sameScore, sameTitle, scoreSlice, titleSlice } from "./slices.ts";

export interface RowHeadProps {
  readonly song: string;
  /** Holds the grid's one tab stop. */
  readonly active: boolean;
}

const LINK = "decoration-control underline-offset-3 hover:underline -outline-offset-2";

export const TitleCell = memo(({ song, active, place }: RowHeadProps & { readonly place: number | null }) => {
  const href = useHref();
  const slice = useSongSlice(song, titleSlice, sameTitle);
  return (
    <div {...rowHeadRole(1)} className="line-clamp-3">
      {place === null ? null : (
        <span className="mr-1.5 text-small text-quiet">
          <span className="sr-only">song </span>
          {place + 1}
        </span>
      )}
      <a
        href={href(songLink(song))}
        tabIndex={active ? 0 : -1}
        data-column="title"
        title={slice?.title}
        className={classNames(LINK, "mr-2 font-semibold")}
      >
        {slice?.title ?? "Taken off the board"}
      </a>
      <span className="expression text-small whitespace-nowrap text-quiet">{slice?.stage}</span>
    </div>
  );
});
TitleCell.displayName = "TitleCell";

export const ReadyCell = memo(({ song, active }: RowHeadProps) => {
  const href = useHref();
  const slice = useSongSlice(song, readySlice, sameReady);
  const reason = slice?.reason ?? null;
  return (
    <div {...cellRole(2)} className="text-small">
      {slice === null || reason === null ? (
        <button
          type="button"
          tabIndex={active ? 0 : -1}
          data-column="ready"
          data-opens="score"
          className={classNames(LINK, "font-semibold")}
        >
          {slice === null ? "" : slice.waived > 0 ? `ready, ${slice.waived} waived` : "ready"}
        </button>
      ) : (
        <a
          href={href(namedLink(reason.names))}
          tabIndex={active ? 0 : -1}
          data-column="ready"
          title={reason.sentence}
          className={classNames(LINK, "line-clamp-2")}
        >
          <span className="sr-only">Not ready: </span>
          {reason.sentence}
        </a>
      )}
    </div>
  );
});
ReadyCell.displayName = "ReadyCell";

export const ScoreCell = memo(({ song, active }: RowHeadProps) => {
  const slice = useSongSlice(song, scoreSlice, sameScore);
  return (
    <div {...cellRole(3)} className="flex w-26 shrink-0 items-stretch">
      <button
        type="button"
        tabIndex={active ? 0 : -1}
        data-column="score"
        data-opens="score"
        className={classNames(LINK, "w-full px-2 text-right")}
      >
        {slice === null ? "" : <ScoreFigure score={slice} />}
      </button>
    </div>
  );
});
ScoreCell.displayName = "ScoreCell";
