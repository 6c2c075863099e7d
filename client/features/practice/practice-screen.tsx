import { useEffect, useState } from "react";
import { practiceLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useRanked } from "#client/pieces/use-ranked.ts";
import { WhoAreYou } from "#client/pieces/who-are-you.tsx";
import { useAuthor, usePeople, useSongs } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { DAY_MOST } from "#shared/selectors/practice-list.ts";
import { fillSitting, outcomeOf, outcomeWords } from "#shared/selectors/practice-sitting.ts";
import { BreakNote } from "./break-note.tsx";
import { CareNote } from "./care-note.tsx";
import { MinutesChoice } from "./minutes-choice.tsx";
import { PracticeRow } from "./practice-row.tsx";
import { useSitting } from "./use-sitting.ts";

/** Practice at home: the details that are worth one's minutes most, and the way into the first of them. */
export const PracticeScreen = () => {
  const { member } = useAuthor();
  const person = usePeople().get(member ?? "");
  useStand("parts");
  return (
    <div className="in-room max-w-3xl">
      <PageHeading title="Practice" above={person?.name} />
      {person === undefined ? (
        <WhoAreYou>the details that are worth your time stand here.</WhoAreYou>
      ) : (
        <MyPractice key={person.id} member={person.id} />
      )}
    </div>
  );
};

const MyPractice = ({ member }: { readonly member: string }) => {
  const [sitting, change] = useSitting(member);
  const ranked = useRanked(member);
  const songs = useSongs();
  const href = useHref();
  const [chosen, setChosen] = useState(false);
  const { items, day, minutes } = sitting;
  const outcomes = items.map(({ song, card }) => outcomeOf(songs.get(song), card, member, day));
  const fill = (time: number) =>
    change((last) => ({
      minutes: time,
      items: fillSitting(
        ranked ?? [],
        time,
        last.items.filter((_, i) => (outcomes[i] ?? null) !== null),
      ),
    }));
  // The day's first look chooses; from then on the list holds still.
  useEffect(() => {
    if (ranked === null || chosen) return;
    setChosen(true);
    if (items.length === 0) change((last) => ({ items: fillSitting(ranked, last.minutes, []) }));
  }, [ranked, chosen, items, change]);

  const next = items.find(
    ({ song, card }, i) => outcomes[i] === null && songs.get(song)?.cards.some(({ id }) => id === card),
  );
  const done = outcomeWords(outcomes);
  const each = Math.floor(Math.min(minutes, DAY_MOST) / Math.max(1, items.length));
  return (
    <>
      <BreakNote played={sitting.played} onChange={change} />
      <MinutesChoice minutes={minutes} disabled={ranked === null} onChange={fill} />
      <ol aria-busy={items.length === 0 && ranked === null} className="mt-4 border-t border-control">
        {items.map(({ song, card }) => (
          <PracticeRow key={card} song={song} card={card} member={member} minutes={each} />
        ))}
      </ol>
      {items.length > 0 ? null : ranked === null ? (
        <p className="py-4 text-quiet">Worked out in a moment</p>
      ) : (
        <NothingToPractise />
      )}
      {done === null ? null : <p className="py-4 text-title font-semibold">{done}</p>}
      {next === undefined ? null : (
        <a
          href={href(practiceLink(next.song, next.card))}
          className="mt-4 flex min-h-16 items-center justify-center rounded-edge border border-ink bg-ink px-4 text-title font-semibold text-ground forced-color-adjust-none hover:border-quiet hover:bg-quiet"
        >
          {done === null ? "Begin" : "Go on"}
        </a>
      )}
      {items.length > 0 && next === undefined && ranked !== null ? (
        <Button
          className="mt-2 w-full"
          onClick={() => change(() => ({ items: fillSitting(ranked, minutes, []) }))}
        >
          Choose more
        </Button>
      ) : null}
      <CareNote />
    </>
  );
};

const NothingToPractise = () => (
  <EmptyState title="Nothing to practise alone">
    Your details are locked in, were played today, or wait for the others. A run together is worth more now.
  </EmptyState>
);
