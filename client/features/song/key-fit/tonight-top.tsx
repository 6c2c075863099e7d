import { useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { songLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useBoardId, useBoardStore, useGigs, useViewpoint } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { tuneForGig } from "#shared/commands/call-song.ts";
import { noteName } from "#shared/music/note-name.ts";
import { keyNow } from "#shared/selectors/key-fit.ts";
import {
  keepTop,
  readTop,
  readTopNote,
  songsOverTop,
  type TonightRemedy,
  tonightSong,
} from "#shared/selectors/tonight-top.ts";
import { PLAIN_KEY } from "#shared/selectors/voice-draft.ts";

export interface TonightTopProps {
  readonly view: SongView;
  /** The singer, whose device this is. */
  readonly member: string;
}

/** A letter and its sign, the octave still to come. */
const BEGUN = /^[A-Ga-g](#|b|♯|♭)?$/u;

/** Where the voice ends tonight: for the singer alone, on this device, for this day. */
export const TonightTop = ({ view, member }: TonightTopProps) => {
  const board = useBoardId();
  const gigs = useGigs();
  const [{ today }] = useViewpoint();
  const name = `tonight-top.${board}.${member}`;
  const { song } = view.file;
  const key = keyNow(song) ?? PLAIN_KEY;
  const [top, setTop] = useState(() => readTop(recall(name), today));
  const [text, setText] = useState(() => (top === null ? "" : noteName(top, key)));
  // A note that is still being typed is no fault yet.
  const [left, setLeft] = useState(true);
  const read = readTopNote(text);
  const type = (value: string) => {
    setText(value);
    setLeft(false);
    const next = readTopNote(value);
    if (!next.ok) return;
    remember(name, keepTop(next.value, today));
    setTop(next.value);
  };
  const gig = gigs.find(({ date, songs }) => date === today && songs.some((entry) => entry.song === song.id));
  return (
    <section aria-labelledby="tonight-top" className="no-print border-t border-control pt-3">
      <h3 id="tonight-top" className="font-semibold">
        Tonight's top
      </h3>
      <TextField
        label="Your highest note tonight"
        hint="Stays on this device, nobody else sees it, and tomorrow it is gone. Empty = as always."
        value={text}
        maxLength={20}
        onChange={type}
        onBlur={() => setLeft(true)}
        error={read.ok || (!left && BEGUN.test(text.trim())) ? undefined : read.error}
      />
      {top === null || !read.ok ? null : <Remedies view={view} top={top} gig={gig ?? null} />}
      <p className="caption mt-2">
        Where it hurts or stays low, rest it, and ask a voice teacher or a doctor.
      </p>
      {top === null || gig === undefined ? null : (
        <OtherSongs song={song.id} gig={gig} member={member} top={top} />
      )}
    </section>
  );
};

const Remedies = ({
  view,
  top,
  gig,
}: {
  readonly view: SongView;
  readonly top: number;
  readonly gig: Gig | null;
}) => {
  const { song } = view.file;
  const night = gig?.songs.find((entry) => entry.song === song.id)?.key ?? null;
  const read = tonightSong(view.file, night, top);
  if (!read.ok) return <p className="caption mt-2">{read.error}</p>;
  const { sentence, remedies } = read.value;
  return (
    <div className="mt-2" aria-live="polite">
      <p>{sentence}</p>
      {night === null || gig === null ? null : <NightKey view={view} gig={gig} night={night} />}
      {remedies.length === 0 ? (
        <p className="text-quiet">It fits tonight as it is.</p>
      ) : (
        <>
          <p className="caption mt-2">For tonight only, what asks least of the band first:</p>
          <ol aria-label="For tonight only" className="list-decimal pl-6">
            {remedies.map((remedy) => (
              <li key={remedy.words} className="py-1">
                <RemedyLine remedy={remedy} view={view} gig={gig} />
              </li>
            ))}
          </ol>
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

interface RemedyLineProps {
  readonly remedy: TonightRemedy;
  readonly view: SongView;
  readonly gig: Gig | null;
}

const RemedyLine = ({ remedy: { words, key }, view, gig }: RemedyLineProps) => {
  const act = useAct();
  const { id, title } = view.file.song;
  return (
    <>
      {words}{" "}
      {key === null || gig === null ? null : (
        <Button
          tone="quiet"
          onClick={() => act(tuneForGig, { gig: gig.id, song: id, key }, `${title}: ${key} that night`)}
        >
          Send the band {key} for tonight
        </Button>
      )}
    </>
  );
};

/** The band plays it in another key tonight already. */
const NightKey = ({
  view,
  gig,
  night,
}: {
  readonly view: SongView;
  readonly gig: Gig;
  readonly night: string;
}) => {
  const act = useAct();
  const { id, title } = view.file.song;
  return (
    <p>
      The band has {night} for tonight.{" "}
      <Button
        tone="quiet"
        onClick={() =>
          act(tuneForGig, { gig: gig.id, song: id, key: null }, `${title}: its own key that night`)
        }
      >
        Back to its own key
      </Button>
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
  const board = useBoardStore().board();
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
