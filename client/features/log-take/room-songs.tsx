import { useMemo, useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { roomLink, songsLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongs, useViewpoint } from "#client/store/hooks.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { songFacts } from "#shared/selectors/song-facts.ts";
import { gigFirst } from "#shared/selectors/song-order.ts";
import { PlannedSongs } from "./planned-songs.tsx";
import { useLastSong } from "./use-room-place.ts";

export interface RoomSongsProps {
  /** How often each song was played today. */
  readonly played: ReadonlyMap<string, number>;
  /** The gig whose songs come first; null = none. */
  readonly gig: Gig | null;
}

/** Which song is it: the gig's first, the rest below, any by a few letters. */
export const RoomSongs = ({ played, gig }: RoomSongsProps) => {
  const href = useHref();
  const songs = useSongs();
  const [{ today }] = useViewpoint();
  const [search, setSearch] = useState("");
  const last = songs.get(useLastSong() ?? "")?.song;
  const { called, others } = useMemo(() => gigFirst(songs, gig, search), [songs, gig, search]);
  if (songs.size === 0) {
    return (
      <EmptyState
        title="No songs yet"
        action={
          <TextLink standing href={href(songsLink())}>
            Add songs
          </TextLink>
        }
      >
        The first songs of the board stand here, the next gig's on top, ready to be logged with two taps.
      </EmptyState>
    );
  }
  const rows = (files: readonly SongFile[]) => (
    <ol>
      {files.map(({ song }) => {
        const times = played.get(song.id) ?? 0;
        const said = times === 0 ? "" : times === 1 ? "played today" : `${times} × today`;
        return (
          <ListRow
            key={song.id}
            size="room"
            href={href(roomLink(song.id))}
            note={[songFacts(song), said].filter((part) => part !== "").join(" · ")}
          >
            {song.title}
          </ListRow>
        );
      })}
    </ol>
  );
  return (
    <>
      {last === undefined ? null : (
        <p>
          <TextLink standing href={href(roomLink(last.id))}>
            Go on with {last.title}
          </TextLink>
        </p>
      )}
      <TextField
        label="Find a song"
        type="search"
        value={search}
        onChange={setSearch}
        enterKeyHint="search"
      />
      {/* Whoever looks for a song looks in one list. */}
      {search === "" ? <PlannedSongs played={played} /> : null}
      {gig === null || called.length === 0 ? null : (
        <SectionHeading title={gig.name || gig.place} aside={dayText(gig.date, today)} />
      )}
      {rows(called)}
      {others.length === 0 ? null : <SectionHeading title={called.length > 0 ? "Other songs" : "Songs"} />}
      {rows(others)}
      {called.length + others.length === 0 ? <p className="py-4 text-quiet">No song of that name.</p> : null}
    </>
  );
};
