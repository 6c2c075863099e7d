import { useEffect, useMemo, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import { roomLink, songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useBoardStore, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { FEELS } from "#shared/board/take.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { listed } from "#shared/readiness/names.ts";
import {
  type EveningSource,
  eveningSummary,
  gigEffect,
  type Moved,
  type PlayerEvening,
  type SongEffect,
  songEffects,
} from "#shared/selectors/evening-summary.ts";
import { GATE_WORDS } from "#shared/selectors/gate-lines.ts";
import { pointsOf } from "#shared/selectors/points.ts";

/** What one evening changed. A member reads their own, the leader everybody's; nobody is ranked. */
export const TonightScreen = () => {
  const href = useHref();
  const store = useBoardStore();
  const names = useNames();
  const board = useWholeBoard();
  const { role, member } = useAuthor();
  const [{ today, gig: next }] = useViewpoint();
  const chosen = board.rehearsals.find(({ day }) => day === today)?.gig ?? null;
  const gig = board.gigs.find(({ id }) => id === chosen) ?? next;
  const source = useMemo<EveningSource>(
    () => ({ board, day: today, gig, now: store.now() }),
    [board, today, gig, store],
  );
  const summary = useMemo(
    () => eveningSummary(source, role === "leader" ? null : (member ?? "")),
    [source, role, member],
  );
  const { songs, players, unplaced } = summary;
  return (
    <div className="in-room max-w-3xl">
      <PageHeading title="Tonight" above={dayWords(today, { weekday: true })} />
      <p>
        <TextLink standing href={href(roomLink())}>
          Back to the room
        </TextLink>
      </p>
      {songs.length === 0 && players.length === 0 ? (
        <EmptyState title="Nothing was played yet">
          Once a take is logged, this says what it changed.
        </EmptyState>
      ) : null}
      {songs.length === 0 ? null : <SectionHeading title="Played" />}
      <ul>
        {songs.map(({ song, title, takes, minutes }) => (
          <ListRow
            key={song}
            size="room"
            href={href(songLink(song))}
            note={FEELS.flatMap((feel) => (takes[feel] > 0 ? [`${takes[feel]} ${feel}`] : [])).join(", ")}
            trail={<span>{Math.round(minutes)} min</span>}
          >
            {title}
          </ListRow>
        ))}
      </ul>
      {unplaced > 0 ? (
        <p className="py-2 text-quiet">
          {unplaced === 1 ? "1 slip" : `${unplaced} slips`} nobody could place.
        </p>
      ) : null}
      {players.map((player) => (
        <Player
          key={player.member}
          player={player}
          name={player.member === member ? "You" : names.member(player.member)}
        />
      ))}
      {gig === null ? null : <GigEffects source={source} />}
      <p className="mt-6 text-quiet">
        Minutes run from one logged take to the next, a quarter of an hour at most. “Before” leaves out
        tonight's takes, slips, new details and marks. Where somebody moved a detail more than once tonight,
        only the last step is left out; what was reworded, recast or settled tonight counts as it is now.
      </p>
    </div>
  );
};

const Player = ({ player, name }: { readonly player: PlayerEvening; readonly name: string }) => {
  const list = (title: string, moved: readonly Moved[]) =>
    moved.length === 0 ? null : (
      <>
        <h3 className="mt-2 text-quiet">{title}</h3>
        <ul>
          {moved.map((one) => (
            <li key={`${one.song} ${one.card}`}>
              {one.title}, {one.words}
            </li>
          ))}
        </ul>
      </>
    );
  return (
    <section aria-label={name}>
      <SectionHeading title={name} />
      {list("Locked in", player.lockedIn)}
      {list("Practised", player.practised)}
      {list("Slipped", player.slipped)}
    </section>
  );
};

/** Worked out a few songs at a time: gates and scores of a whole gig, twice. */
const GigEffects = ({ source }: { readonly source: EveningSource }) => {
  const [effects, setEffects] = useState<readonly SongEffect[] | null>(null);
  useEffect(() => inSlices(songEffects(source), setEffects), [source]);
  const { gig } = source;
  if (gig === null) return null;
  const minutes = effects === null ? null : gigEffect(source, gig, effects);
  const changed = (effects ?? []).filter(
    ({ before, after, cleared, lost }) => before !== after || cleared.length + lost.length > 0,
  );
  return (
    <section aria-label="What it did to the gig">
      <SectionHeading title={`What it did to ${gig.name || gig.place}`} aside={dayWords(gig.date)} />
      {minutes === null ? (
        <p className="text-quiet">Working it out.</p>
      ) : (
        <p>
          Ready minutes: {Math.round(minutes.before)} → {Math.round(minutes.after)} of {minutes.contracted}.
        </p>
      )}
      <ul>
        {changed.map((effect) => (
          <ListRow
            key={effect.song}
            size="room"
            note={gatesWords(effect)}
            trail={
              <span>
                {pointsOf(effect.before)} → {pointsOf(effect.after)}
              </span>
            }
          >
            {effect.title}
          </ListRow>
        ))}
      </ul>
      {minutes !== null && changed.length === 0 ? (
        <p className="text-quiet">Its songs stand as they did before.</p>
      ) : null}
    </section>
  );
};

const gatesWords = ({ cleared, lost, readyBefore, readyAfter }: SongEffect): string => {
  const words = (gates: SongEffect["cleared"]): string => listed(gates.map((gate) => GATE_WORDS[gate]));
  return [
    readyAfter && !readyBefore ? "ready now" : readyBefore && !readyAfter ? "not ready any more" : "",
    cleared.length === 0 ? "" : `cleared: ${words(cleared)}`,
    lost.length === 0 ? "" : `open again: ${words(lost)}`,
  ]
    .filter((part) => part !== "")
    .join("; ");
};
