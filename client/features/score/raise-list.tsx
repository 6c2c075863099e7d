import { useMemo } from "react";
import { namedLink, roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import type { SongView } from "#client/store/song-view.ts";
import { ListRow } from "#client/ui/list-row.tsx";
import { pointsOf, signedPoints } from "#shared/selectors/points.ts";
import { type RaiseLine, raiseLines } from "#shared/selectors/raise-lines.ts";
import { useRaises } from "./use-raises.ts";

const MOST = 6;

const Line = ({ line, song }: { readonly line: RaiseLine; readonly song: string }) => {
  const href = useHref();
  return (
    <ListRow
      href={href(line.do === "run" ? roomLink(song) : namedLink(line.names))}
      trail={
        <span className="text-right">
          <span className="font-semibold">{signedPoints(line.difference)}</span>
          <span className="caption block">to {pointsOf(line.after)} %</span>
        </span>
      }
    >
      {line.words}
    </ListRow>
  );
};

/** What would raise the song most on the night, each action tried by itself. */
export const RaiseList = ({ view }: { readonly view: SongView }) => {
  const raises = useRaises(view);
  const { file, names } = view;
  const lines = useMemo(
    () => (raises === null ? null : raiseLines(raises, file, names, MOST)),
    [raises, file, names],
  );
  if (lines === null) return <p className="caption min-h-12 py-2">Trying every single step.</p>;
  if (lines.length === 0) return <p className="text-quiet">No single step would raise it by a point.</p>;
  return (
    <>
      <ol>
        {lines.map((line) => (
          <Line key={line.key} line={line} song={file.song.id} />
        ))}
      </ol>
      <p className="caption mt-2">
        Points on the night for one step alone; two steps together do not simply add up.
      </p>
    </>
  );
};
