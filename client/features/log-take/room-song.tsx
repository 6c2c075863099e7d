import { type ReactNode, useMemo, useState } from "react";
import { useLocation } from "wouter";
import { AwakeButton } from "#client/pieces/awake-button.tsx";
import { LastTimeLines } from "#client/pieces/last-time-lines.tsx";
import { roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useChairs, useRehearsal, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Song } from "#shared/board/song.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { roomPlace } from "#shared/selectors/room-order.ts";
import { hereWords } from "#shared/selectors/seating.ts";
import { withSlip } from "#shared/selectors/slip-choices.ts";
import { tempoWords } from "#shared/selectors/take-tempo.ts";
import { DayAndKey } from "./day-and-key.tsx";
import { KeysHelp } from "./keys-help.tsx";
import { MyDetails } from "./my-details.tsx";
import { ResultBar } from "./result-bar.tsx";
import { SlipPicker } from "./slip-picker.tsx";
import { TakeKind } from "./take-kind.tsx";
import { TempoFields } from "./tempo-fields.tsx";
import { useEveningGig } from "./use-evening-gig.ts";
import { usePedal, useRoomKeys } from "./use-room-keys.ts";
import { useRoomPlace } from "./use-room-place.ts";
import { type OpenTake, useTake } from "./use-take.ts";
import { WhoIsHere } from "./who-is-here.tsx";

/** One song in the room: what to know before the count-in, one's own details, and one tap for how it went. */
export const RoomSong = ({ file }: { readonly file: SongFile }) => {
  const take = useTake(file);
  const { member } = useAuthor();
  const chairs = useChairs();
  const [pedal, setPedal] = usePedal();
  const { song } = file;
  // What was so when the song was opened: news must not move what a thumb is about to hit.
  const [opened] = useState(file);
  const mine = useMemo(
    () => chairs.flatMap(({ id, holder }) => (holder === member ? [id] : [])),
    [chairs, member],
  );
  const around = useAround(song.id);
  const go = useGo();
  useRoomPlace(song.id);
  useRoomKeys({
    pedal,
    log: (feel) => take.fault === null && take.log(feel),
    next: () => around.next !== null && go(around.next.id),
    previous: () => around.previous !== null && go(around.previous.id),
  });
  const facts = [song.key, song.tempo === null ? "" : String(song.tempo), song.countIn];
  return (
    <>
      <PageHeading title={song.title} above={facts.filter((fact) => fact !== "").join(" · ")} />
      <LastTimeLines song={opened} chairs={mine} />
      {member === null ? null : <MyDetails file={file} member={member} take={take} />}
      <h2 className="mt-3 border-b border-control pb-1 font-semibold">Did anything else slip?</h2>
      <SlipPicker
        key={take.logged}
        song={file}
        slips={take.draft.slips}
        onSet={(choice, severity) => take.change({ slips: withSlip(take.draft.slips, choice, severity) })}
      />
      <MoreAboutIt file={file} take={take} />
      <KeysHelp pedal={pedal} onChange={setPedal} />
      <div className="no-print flex flex-wrap items-center gap-x-6 gap-y-2 pt-4">
        <AwakeButton />
        <AllSongs />
      </div>
      <ResultBar take={take} next={around.next} />
    </>
  );
};

/** Goes to another song of the room. */
const useGo = (): ((song: string) => void) => {
  const [, navigate] = useLocation();
  return (song) => navigate(roomLink(song));
};

interface Around {
  readonly previous: Song | null;
  readonly next: Song | null;
}

/** The songs on either side, as they were when this one was opened. */
const useAround = (song: string): Around => {
  const songs = useSongs();
  const [{ today }] = useViewpoint();
  const gig = useEveningGig();
  const rehearsal = useRehearsal(today);
  const [{ previous, next }] = useState(() => roomPlace(songs, rehearsal?.plan ?? [], gig, song));
  const there = (id: string | null): Song | null => (id === null ? null : (songs.get(id)?.song ?? null));
  return { previous: there(previous), next: there(next) };
};

const Fold = (props: { readonly name: string; readonly value: string; readonly children: ReactNode }) => (
  <Accordion
    size="room"
    summary={
      <>
        {props.name} <span className="text-quiet">{props.value}</span>
      </>
    }
  >
    {props.children}
  </Accordion>
);

/** Everything but the common case, folded, with what holds said on each fold. */
const MoreAboutIt = ({ file, take }: { readonly file: SongFile; readonly take: OpenTake }) => {
  const names = useNames();
  const [{ today }] = useViewpoint();
  const { draft, change, here, scene, fault } = take;
  const inRoom = draft.kind === "run" || draft.kind === "drill";
  const day = draft.day === null ? "today" : dayText(draft.day, today);
  return (
    <>
      <h2 className="mt-6 border-b border-control pb-1 font-semibold">About this take</h2>
      {inRoom ? (
        <Fold name="Here" value={hereWords(scene.board, here, names)}>
          <WhoIsHere day={draft.day ?? today} here={here} onChange={take.setHere} />
        </Fold>
      ) : null}
      <Fold
        name="Tempo"
        value={tempoWords(draft.tempoStart, draft.tempoEnd, file.song.tempo) || "not measured"}
      >
        <TempoFields
          start={draft.tempoStart}
          end={draft.tempoEnd}
          target={file.song.tempo}
          onChange={change}
        />
      </Fold>
      <Fold name="Kind" value={draft.kind}>
        <TakeKind song={file} draft={draft} change={change} fault={fault} />
      </Fold>
      <Fold name="Day and key" value={[day, draft.key].filter((part) => part !== "").join(", ")}>
        <DayAndKey draft={draft} change={change} fault={fault} agreed={file.song.key} />
      </Fold>
    </>
  );
};

/** A day that is half typed is said as it stands. */
const dayText = (day: string, today: string): string => {
  try {
    return dayWords(day, { weekday: true, today });
  } catch {
    return day;
  }
};

const AllSongs = () => {
  const href = useHref();
  return (
    <TextLink standing href={href(roomLink())}>
      All songs
    </TextLink>
  );
};
