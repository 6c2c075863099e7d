import type { ReactNode } from "react";
import { LastTimeLines } from "#client/pieces/last-time-lines.tsx";
import { roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useChairs, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { hereWords } from "#shared/selectors/seating.ts";
import { withSlip } from "#shared/selectors/slip-choices.ts";
import { tempoWords } from "#shared/selectors/take-tempo.ts";
import { DayAndKey } from "./day-and-key.tsx";
import { ResultBar } from "./result-bar.tsx";
import { SlipPicker } from "./slip-picker.tsx";
import { TakeKind } from "./take-kind.tsx";
import { TempoFields } from "./tempo-fields.tsx";
import { type OpenTake, useTake } from "./use-take.ts";
import { WhoIsHere } from "./who-is-here.tsx";

/** One song in the room: what to know before the count-in, and one tap for how it went. */
export const RoomSong = ({ file }: { readonly file: SongFile }) => {
  const take = useTake(file);
  const { member } = useAuthor();
  const mine = useChairs().flatMap(({ id, holder }) => (holder === member ? [id] : []));
  const { song } = file;
  const facts = [song.key, song.tempo === null ? "" : String(song.tempo), song.countIn];
  return (
    <>
      <PageHeading title={song.title} above={facts.filter((fact) => fact !== "").join(" · ")} />
      <LastTimeLines song={file} chairs={mine} />
      <h2 className="mt-3 border-b border-control pb-1 font-semibold">Did anything slip?</h2>
      <SlipPicker
        key={take.logged}
        song={file}
        slips={take.draft.slips}
        onSet={(choice, severity) => take.change({ slips: withSlip(take.draft.slips, choice, severity) })}
      />
      <MoreAboutIt file={file} take={take} />
      <WaysOn song={song.id} />
      <ResultBar take={take} />
    </>
  );
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

/** Back to all songs, and on to the next one of the gig. */
const WaysOn = ({ song }: { readonly song: string }) => {
  const href = useHref();
  const songs = useSongs();
  const [{ gig }] = useViewpoint();
  const place = gig?.songs.findIndex((called) => called.song === song) ?? -1;
  const next = place < 0 ? undefined : songs.get(gig?.songs[place + 1]?.song ?? "");
  return (
    <p className="mt-4 flex flex-wrap gap-x-6">
      <TextLink standing href={href(roomLink())}>
        All songs
      </TextLink>
      {next === undefined ? null : (
        <TextLink standing href={href(roomLink(next.song.id))}>
          Next: {next.song.title}
        </TextLink>
      )}
    </p>
  );
};
