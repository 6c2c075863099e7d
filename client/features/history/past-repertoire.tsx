import { useMemo } from "react";
import { Accordion } from "#client/ui/accordion.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Board, SongFile } from "#shared/board/board.ts";
import { pastSong } from "#shared/selectors/past-song.ts";
import { repertoire } from "#shared/selectors/repertoire.ts";
import { songFacts } from "#shared/selectors/song-facts.ts";

const TAKES = 5;

const SongThen = ({ file, board }: { readonly file: SongFile; readonly board: Board }) => {
  const song = useMemo(() => pastSong(file, board), [file, board]);
  return (
    <div className="flex flex-col gap-3 pb-4 pl-6">
      {song.facts.length === 0 ? null : (
        <dl className="grid grid-cols-[auto_1fr] gap-x-4 gap-y-1">
          {song.facts.map(([label, value]) => (
            <div key={label} className="contents">
              <dt className="caption pt-0.5">{label}</dt>
              <dd className="min-w-0">{value}</dd>
            </div>
          ))}
        </dl>
      )}
      <p>
        <span className="caption block">Form</span>
        {song.form || "not written"}
      </p>
      <p>
        <span className="caption block">Who played</span>
        {song.cast.join(" · ")}
      </p>
      <div>
        <p className="caption">{song.details.length === 1 ? "1 detail" : `${song.details.length} details`}</p>
        <ul>
          {song.details.map(({ id, about, text, marks }) => (
            <li key={id} className="border-t border-line py-2">
              <span className="caption block">{about}</span>
              {text}
              <span className="caption block">
                {marks.length === 0 ? "nobody had said anything" : marks.join(" · ")}
              </span>
            </li>
          ))}
        </ul>
      </div>
      <div>
        <p className="caption">{song.takes.length === 1 ? "1 take" : `${song.takes.length} takes`}</p>
        <ul>
          {song.takes.slice(0, TAKES).map((take, place) => (
            // Two takes of a day may read alike, and nothing here ever changes.
            // biome-ignore lint/suspicious/noArrayIndexKey: their place is what they are
            <li key={place}>{take}</li>
          ))}
          {song.takes.length > TAKES ? <li className="text-quiet">and earlier ones</li> : null}
        </ul>
      </div>
    </div>
  );
};

/** The repertoire as it stood, song by song, to be read. */
export const PastRepertoire = ({ board }: { readonly board: Board }) => {
  const groups = repertoire(board.songs.values(), { search: "", stage: "all" });
  if (groups.length === 0) return <p className="py-4 text-quiet">There were no songs on the board then.</p>;
  return groups.map(({ stage, songs }) => (
    <section key={stage} aria-label={stage}>
      <SectionHeading title={stage} aside={songs.length} />
      {songs.map((song) => {
        const file = board.songs.get(song.id);
        return (
          <Accordion
            key={song.id}
            summary={
              <>
                {song.title}
                <span className="caption block">{songFacts(song) || "nothing settled yet"}</span>
              </>
            }
          >
            {file === undefined ? null : <SongThen file={file} board={board} />}
          </Accordion>
        );
      })}
    </section>
  ));
};
