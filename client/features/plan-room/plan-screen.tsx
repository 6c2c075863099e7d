import { useState } from "react";
import { gigLink, roomLink, songsLink } from "#client/pieces/links.ts";
import { RehearsalForm } from "#client/pieces/rehearsal-form.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useRehearsals, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { isDay } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { eveningsAhead, eveningWords } from "#shared/selectors/evenings.ts";
import { PlanInUse } from "./plan-in-use.tsx";
import { Proposal } from "./proposal.tsx";
import { type Evening, useEvening } from "./use-evening.ts";
import { WhoComes } from "./who-comes.tsx";

export interface PlanScreenProps {
  /** `YYYY-MM-DD`; without one, the next evening. */
  readonly day?: string | undefined;
}

/** What to spend an evening's minutes on: the leader plans, everybody sees the plan in use. Needs no signal. */
export const PlanScreen = ({ day }: PlanScreenProps) => {
  const [{ today }] = useViewpoint();
  const [next] = eveningsAhead({ rehearsals: useRehearsals() }, today);
  const shown = day !== undefined && isDay(day) ? day : (next?.day ?? today);
  return <PlanOfDay key={shown} day={shown} />;
};

const PlanOfDay = ({ day }: { readonly day: string }) => {
  const evening = useEvening(day);
  const { role } = useAuthor();
  const [{ today }] = useViewpoint();
  const leads = role === "leader";
  return (
    <div className="max-w-4xl">
      <PageHeading title="Plan the room" above={dayWords(day, { weekday: true, today })} />
      <Facts evening={evening} leads={leads} />
      <WhoComes evening={evening} looking={role === "guest"} />
      <Body evening={evening} leads={leads} />
    </div>
  );
};

/** When, how long, for which gig. */
const Facts = ({
  evening: { evening, gig, stretch },
  leads,
}: {
  readonly evening: Evening;
  readonly leads: boolean;
}) => {
  const href = useHref();
  const [changing, setChanging] = useState(false);
  const { startedAt, endedAt } = evening;
  const left =
    startedAt !== null && endedAt === null ? `${stretch.minutes} minutes of playing are left. ` : "";
  return (
    <div className="mb-2">
      <p>{eveningWords(evening)}</p>
      <p className="flex flex-wrap items-center gap-x-6">
        <span>
          {left}
          {gig === null ? "No gig is ahead: every song in the book counts alike." : "For "}
          {gig === null ? null : <TextLink href={href(gigLink(gig.id))}>{gig.name || gig.place}</TextLink>}
        </span>
        {leads ? (
          <Button tone="quiet" className="no-print -ml-1" onClick={() => setChanging(true)}>
            Change minutes, start or gig
          </Button>
        ) : null}
      </p>
      {changing ? <RehearsalForm rehearsal={evening} onClose={() => setChanging(false)} /> : null}
    </div>
  );
};

/** The plan in use, or the leader's next one; or why there can be none. */
const Body = ({ evening, leads }: { readonly evening: Evening; readonly leads: boolean }) => {
  const href = useHref();
  const songs = useSongs();
  const [planning, setPlanning] = useState(leads && evening.evening.plan.length === 0);
  const { stretch, phased } = evening;
  if (!planning && evening.evening.plan.length > 0) {
    const anew = () => {
      evening.askAnew();
      setPlanning(true);
    };
    return <PlanInUse evening={evening} onAnew={leads ? anew : null} />;
  }
  if (!leads)
    return (
      <EmptyState
        title="No plan yet"
        action={
          <TextLink standing href={href(roomLink())}>
            All songs
          </TextLink>
        }
      >
        Once the leader has chosen what the evening is spent on, it stands here, with what each song gets and
        when.
      </EmptyState>
    );
  if (songs.size === 0)
    return (
      <EmptyState
        title="No songs yet"
        action={
          <TextLink standing href={href(songsLink())}>
            Add songs
          </TextLink>
        }
      >
        With songs on the board, what is worth playing in the minutes you have stands here.
      </EmptyState>
    );
  if (stretch.minutes === 0)
    return (
      <EmptyState title="No minutes to play">
        {evening.evening.startedAt === null
          ? "Set-up, pause and pack-down take all that is booked. Book more minutes, or take less off."
          : "The booked time is over. Book more minutes to plan what is left."}
      </EmptyState>
    );
  if (phased.phases.every(({ present }) => present.size === 0))
    return (
      <EmptyState title="Nobody is here">
        Say above who comes: what nobody can play is not planned.
      </EmptyState>
    );
  return <Proposal evening={evening} onDone={() => setPlanning(false)} />;
};
