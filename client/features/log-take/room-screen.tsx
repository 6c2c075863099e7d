import { useMemo, useState } from "react";
import { roomLink } from "#client/pieces/links.ts";
import { OwnChanges } from "#client/pieces/own-changes.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import {
  useAuthor,
  useBand,
  useChairs,
  useGigs,
  usePeople,
  useRehearsal,
  useSongs,
  useViewpoint,
} from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { eveningLog } from "#shared/selectors/evening-log.ts";
import { hereWords } from "#shared/selectors/seating.ts";
import { EveningLog } from "./evening-log.tsx";
import { EveningPanel } from "./evening-panel.tsx";
import { HearingNote } from "./hearing-note.tsx";
import { RoomSong } from "./room-song.tsx";
import { RoomSongs } from "./room-songs.tsx";
import { useEveningGig } from "./use-evening-gig.ts";
import { isPlaying, useHere } from "./use-here.ts";
import { WhoIsHere } from "./who-is-here.tsx";

export interface RoomScreenProps {
  /** The song that is being played; without one it is chosen here. */
  readonly song?: string | undefined;
}

/** The evening in the room: pick a song, play it, tap how it was. Needs no signal. */
export const RoomScreen = ({ song }: RoomScreenProps) => {
  const files = useSongs();
  useStand("room", song);
  const file = song === undefined ? undefined : files.get(song);
  return (
    <div className={song === undefined ? "in-room max-w-3xl" : "in-room max-w-3xl pb-40 laptop:pb-48"}>
      {file !== undefined ? (
        <RoomSong key={file.song.id} file={file} />
      ) : song !== undefined ? (
        <SongGone />
      ) : (
        <PickSong />
      )}
      <OwnChanges nothing="Nothing yet. What you tap here can be taken back from this list." />
      <HearingNote />
      <EveningLog />
    </div>
  );
};

const SongGone = () => {
  const href = useHref();
  return (
    <>
      <PageHeading title="Room" />
      <EmptyState
        title="This song is gone"
        action={
          <TextLink standing href={href(roomLink())}>
            All songs
          </TextLink>
        }
      >
        It was taken off the board. What was logged for it is kept and comes back with it.
      </EmptyState>
    </>
  );
};

const PickSong = () => {
  const songs = useSongs();
  const names = useNames();
  const gigs = useGigs();
  const { timeZone } = useBand();
  const { member } = useAuthor();
  const board = { chairs: useChairs(), people: usePeople() };
  const [{ today }] = useViewpoint();
  const [here, setHere] = useHere(today);
  const playing = isPlaying(useRehearsal(today));
  const gig = useEveningGig();
  // As it was when the songs were listed: somebody else's start must not move what a thumb is about to hit.
  const [listed, setListed] = useState<Gig | "now" | null>(playing ? "now" : gig);
  const shown = listed === "now";
  const played = useMemo(() => {
    const counts = new Map<string, number>();
    for (const { file } of eveningLog(songs.values(), { day: today, gigs, timeZone, member }))
      counts.set(file.song.id, (counts.get(file.song.id) ?? 0) + 1);
    return counts;
  }, [songs, gigs, timeZone, member, today]);
  return (
    <>
      <PageHeading title="Room" above={dayWords(today, { weekday: true })} />
      <EveningPanel shown={shown} onShow={() => setListed("now")} />
      {board.chairs.length === 0 ? null : (
        <Accordion
          size="room"
          className="mb-4"
          summary={
            <>
              Here <span className="text-quiet">{hereWords(board, here, names)}</span>
            </>
          }
        >
          <WhoIsHere day={today} here={here} onChange={setHere} />
        </Accordion>
      )}
      <RoomSongs played={played} gig={shown ? gig : listed} />
    </>
  );
};
