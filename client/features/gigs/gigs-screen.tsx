import Plus from "lucide-react/icons/plus";
import { useState } from "react";
import { useLocation } from "wouter";
import { dayText } from "#client/pieces/day-text.ts";
import { gigLink } from "#client/pieces/links.ts";
import { MissingLine } from "#client/pieces/missing-line.tsx";
import { RemovedList } from "#client/pieces/removed-list.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useGigs, useViewpoint } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import type { Gig } from "#shared/board/band.ts";
import { restoreGig } from "#shared/commands/remove-record.ts";
import { CalendarLine } from "./calendar-line.tsx";
import { GigForm } from "./gig-form.tsx";
import { RehearsalsSection } from "./rehearsals-section.tsx";
import { useGig } from "./use-gig.ts";

const Stands = ({ gig }: { readonly gig: string }) => {
  const reading = useGig(gig);
  if (reading === null) return null;
  const { minutes } = reading.outlook;
  return (
    <span className="text-right">
      <span className="font-semibold">{Math.floor(minutes.ready)}</span>
      <span className="text-quiet"> of {minutes.contracted}</span>
      <span className="caption block">minutes ready</span>
    </span>
  );
};

const GigRow = ({
  gig,
  today,
  ahead,
}: {
  readonly gig: Gig;
  readonly today: string;
  readonly ahead: boolean;
}) => {
  const href = useHref();
  const facts = [gig.place, gig.songs.length === 1 ? "1 song" : `${gig.songs.length} songs`];
  return (
    <ListRow
      href={href(gigLink(gig.id))}
      note={
        <>
          {`${dayText(gig.date, today)} · ${facts.filter((fact) => fact !== "").join(" · ")}`}
          {ahead ? <MissingLine day={gig.date} gig={gig} /> : null}
        </>
      }
      trail={ahead ? <Stands gig={gig.id} /> : null}
    >
      {gig.name || gig.place || "A gig without a name"}
    </ListRow>
  );
};

/** What lies ahead, soonest first, and what lies behind, latest first. */
export const GigsScreen = () => {
  const gigs = useGigs();
  const [{ today }] = useViewpoint();
  const [, go] = useLocation();
  const looking = useAuthor().role === "guest";
  const [planning, setPlanning] = useState(false);
  const ahead = gigs.filter(({ date }) => date >= today);
  const behind = gigs.filter(({ date }) => date < today).reverse();
  const plan = looking ? null : (
    <Button tone="main" icon={Plus} onClick={() => setPlanning(true)}>
      Plan a gig
    </Button>
  );
  return (
    <div className="max-w-4xl">
      <PageHeading title="Gigs" aside={ahead.length > 0 ? plan : null} />
      {ahead.length === 0 ? (
        <EmptyState title="No gig ahead" action={plan}>
          A gig is a day, the minutes you are booked to play, and the songs you call. With one, the board says
          which songs are ready for that night, and why the others are not.
        </EmptyState>
      ) : (
        <ul className="border-t border-line">
          {ahead.map((gig) => (
            <GigRow key={gig.id} gig={gig} today={today} ahead />
          ))}
        </ul>
      )}
      <RehearsalsSection />
      <CalendarLine />
      {behind.length === 0 ? null : (
        <Accordion
          summary={`Past gigs: ${behind.length}`}
          className="mt-8 border-t"
          startOpen={ahead.length === 0}
        >
          <ul className="pl-6">
            {behind.map((gig) => (
              <GigRow key={gig.id} gig={gig} today={today} ahead={false} />
            ))}
          </ul>
        </Accordion>
      )}
      {looking ? null : (
        <RemovedList
          of="gigs"
          restore={restoreGig}
          title={(count) => (count === 1 ? "1 gig was called off" : `${count} gigs were called off`)}
        />
      )}
      {planning ? (
        <GigForm gig={null} onClose={() => setPlanning(false)} onSaved={(gig) => go(gigLink(gig))} />
      ) : null}
    </div>
  );
};
