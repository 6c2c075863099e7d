import { songLink } from "#client/pieces/links.ts";
import { Remedies } from "#client/pieces/tonight/remedies.tsx";
import { TopField, useTop } from "#client/pieces/tonight/top-field.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useGigs, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { tuneForGig } from "#shared/commands/call-song.ts";
import { keyNow } from "#shared/selectors/key-fit.ts";
import { songsOverTop, tonightSong } from "#shared/selectors/tonight-top.ts";
import { PLAIN_KEY } from "#shared/selectors/voice-draft.ts";

export interface TonightTopProps {
  readonly view: SongView;
  /** The singer, whose device this is. */
  readonly member: string;
}

/** Where the voice ends tonight, and what that means for this song: for the singer alone, on this device, for this day. */
export const TonightTop = ({ view, member }: TonightTopProps) => {
  const gigs = useGigs();
  const [{ today }] = useViewpoint();
  const [top, setTop] = useTop(member);
  const { song } = view.file;
  const gig = gigs.find(({ date, songs }) => date === today && songs.some((entry) => entry.song === song.id));
  return (
    <section aria-labelledby="tonight-top" className="no-print border-t border-control pt-3">
      <h3 id="tonight-top" className="font-semibold">
        Tonight's top
      </h3>
      <TopField member={member} top={top} spelling={keyNow(song) ?? PLAIN_KEY} onTop={setTop} />
      {top === null ? null : <ThisSong view={view} top={top} gig={gig ?? null} />}
      {top === null || gig === undefined ? null : (
        <OtherSongs song={song.id} gig={gig} member={member} top={top} />
      )}
    </section>
  );
};

interface ThisSongProps {
  readonly view: SongView;
  readonly top: number;
  readonly gig: Gig | null;
}

const ThisSong = ({ view: { file }, top, gig }: ThisSongProps) => {
  const board = useWholeBoard();
  const { id, title } = file.song;
  const read = tonightSong(board, file, gig, top);
  if (!read.ok) return <p className="caption mt-2">{read.error}</p>;
  const { sentence, remedies } = read.value;
  return (
    <div className="mt-2" aria-live="polite">
      <p>{sentence}</p>
      {gig === null ? null : <NightKey song={id} title={title} gig={gig} />}
      {remedies.length === 0 ? (
        <p className="text-quiet">It fits tonight as it is.</p>
      ) : (
        <>
          <Remedies song={id} title={title} remedies={remedies} gig={gig} />
          {gig === null ? (
            <p className="caption">
              No gig of today has this song, so tell the band in the room: nothing of this goes to them by
              itself.
            </p>
          ) : null}
        </>
      )}
    </div>
  );
};

interface NightKeyProps {
  readonly song: string;
  readonly title: string;
  readonly gig: Gig;
}

/** The band plays it in another key tonight already. */
const NightKey = ({ song, title, gig }: NightKeyProps) => {
  const act = useAct();
  const { role } = useAuthor();
  const night = gig.songs.find((entry) => entry.song === song)?.key ?? null;
  if (night === null) return null;
  return (
    <p>
      The band has {night} for tonight.{" "}
      {role === "leader" ? (
        <Button
          tone="quiet"
          onClick={() =>
            act(tuneForGig, { gig: gig.id, song, key: null }, `${title}: its own key that night`)
          }
        >
          Back to its own key
        </Button>
      ) : null}
    </p>
  );
};

interface OtherSongsProps {
  readonly song: string;
  readonly gig: Gig;
  readonly member: string;
  readonly top: number;
}

const OtherSongs = ({ song, gig, member, top }: OtherSongsProps) => {
  const board = useWholeBoard();
  const href = useHref();
  const others = songsOverTop(board, gig, member, top).filter((over) => over.song !== song);
  if (others.length === 0) return null;
  return (
    <div className="mt-3">
      <p className="caption">Your other songs tonight that lie above it:</p>
      <ul>
        {others.map((over) => (
          <li key={over.song}>
            <TextLink standing href={href(songLink(over.song))}>
              {over.title}
            </TextLink>{" "}
            <span className="text-quiet">{over.sentence}</span>
          </li>
        ))}
      </ul>
    </div>
  );
};
