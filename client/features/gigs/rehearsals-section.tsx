import CalendarArrowDown from "lucide-react/icons/calendar-arrow-down";
import CalendarX from "lucide-react/icons/calendar-x";
import Pencil from "lucide-react/icons/pencil";
import Plus from "lucide-react/icons/plus";
import { useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { peopleLink, planLink, roomLink } from "#client/pieces/links.ts";
import { MissingLine } from "#client/pieces/missing-line.tsx";
import { RehearsalForm } from "#client/pieces/rehearsal-form.tsx";
import { RemovedList } from "#client/pieces/removed-list.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useBand, useGigs, useRehearsals, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Rehearsal } from "#shared/board/rehearsal.ts";
import { cancelRehearsal, restoreRehearsal } from "#shared/commands/remove-record.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { eveningsAhead, eveningWords, gigOfEvening } from "#shared/selectors/evenings.ts";
import { useSaveDates } from "./use-save-dates.ts";

const planWords = ({ plan }: Rehearsal): string => {
  if (plan.length === 0) return "no plan yet";
  return plan.length === 1 ? "1 song planned" : `${plan.length} songs planned`;
};

interface RowProps {
  readonly rehearsal: Rehearsal;
  /** Null for who may only look. */
  readonly onChange: (() => void) | null;
}

const RehearsalRow = ({ rehearsal, onChange }: RowProps) => {
  const act = useAct();
  const href = useHref();
  const gigs = useGigs();
  const [{ today }] = useViewpoint();
  const { name: band } = useBand();
  const saveDates = useSaveDates();
  const { day } = rehearsal;
  const words = dayWords(day, { weekday: true });
  const gig = gigOfEvening({ gigs }, rehearsal);
  const facts = [
    eveningWords(rehearsal),
    gig === null ? "" : `for ${gig.name || gig.place}`,
    planWords(rehearsal),
  ];
  return (
    <ListRow
      href={href(day === today ? roomLink() : planLink(day))}
      note={
        <>
          {facts.filter((fact) => fact !== "").join(" · ")}
          <MissingLine day={day} />
        </>
      }
      trail={
        <span className="flex">
          <IconButton
            icon={CalendarArrowDown}
            label={`Calendar file of the rehearsal of ${words}`}
            onClick={() => saveDates({ rehearsals: [rehearsal] }, { of: band, what: "rehearsal", day })}
          />
          {onChange === null ? null : (
            <>
              <IconButton icon={Pencil} label={`Change the rehearsal of ${words}`} onClick={onChange} />
              <IconButton
                icon={CalendarX}
                label={`Call off the rehearsal of ${words}`}
                onClick={() => act(cancelRehearsal, { id: day }, `Called off: rehearsal of ${words}`)}
              />
            </>
          )}
        </span>
      }
    >
      {dayText(day, today)}
    </ListRow>
  );
};

/** The evenings ahead, soonest first: when, where, how long, for which gig, and who said they are away. */
export const RehearsalsSection = () => {
  const href = useHref();
  const { role } = useAuthor();
  const [{ today }] = useViewpoint();
  const ahead = eveningsAhead({ rehearsals: useRehearsals() }, today);
  const [editing, setEditing] = useState<Rehearsal | "new" | null>(null);
  const looking = role === "guest";
  return (
    <section aria-labelledby="rehearsals">
      <SectionHeading title={<span id="rehearsals">Rehearsals</span>} aside={ahead.length} />
      {ahead.length === 0 ? (
        <p className="pb-3 text-quiet">
          No rehearsal is planned. With its day and minutes, everybody sees when it is and who is away.
        </p>
      ) : (
        <ul>
          {ahead.map((rehearsal) => (
            <RehearsalRow
              key={rehearsal.day}
              rehearsal={rehearsal}
              onChange={looking ? null : () => setEditing(rehearsal)}
            />
          ))}
        </ul>
      )}
      {looking ? null : (
        <div className="mt-4 flex flex-wrap items-center gap-x-6 gap-y-2">
          <Button icon={Plus} onClick={() => setEditing("new")}>
            Plan a rehearsal
          </Button>
          <TextLink standing href={href(peopleLink())}>
            Say days away
          </TextLink>
        </div>
      )}
      {looking ? null : (
        <RemovedList
          of="rehearsals"
          restore={restoreRehearsal}
          title={(count) =>
            count === 1 ? "1 rehearsal was called off" : `${count} rehearsals were called off`
          }
        />
      )}
      {editing === null ? null : (
        <RehearsalForm rehearsal={editing === "new" ? null : editing} onClose={() => setEditing(null)} />
      )}
    </section>
  );
};
