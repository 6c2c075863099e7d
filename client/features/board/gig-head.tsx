import { useState } from "react";
import { gigLink, gigsLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useGigs, useViewpoint } from "#client/store/hooks.ts";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { daysBetween } from "#shared/lib/calendar.ts";
import { daysToGo, dayWords } from "#shared/lib/day-words.ts";
import { capital } from "#shared/readiness/names.ts";
import { type GigOutlook, seatSentence } from "#shared/selectors/gig-outlook.ts";
import { GigBreakdown } from "./gig-breakdown.tsx";
import { useOutlook } from "./use-outlook.ts";

const gigName = (gig: Gig): string => gig.name || gig.place || "A gig";

const GigChoice = ({ gig }: { readonly gig: Gig }) => {
  const gigs = useGigs();
  const [{ today }, lookAt] = useViewpoint();
  if (gigs.length < 2) return null;
  return (
    <Select
      label="Look ahead to"
      value={gig.id}
      onChange={lookAt}
      options={gigs.map((other) => ({
        value: other.id,
        label: `${dayWords(other.date, { weekday: true, today })}, ${gigName(other)}`,
      }))}
      className="max-w-72"
    />
  );
};

/** The largest figure of the board; opens what it is made of. Never rounded up: 24.9 of 25 minutes are not 25. */
const ReadyMinutes = ({ outlook, onOpen }: { readonly outlook: GigOutlook; readonly onOpen: () => void }) => (
  <button type="button" onClick={onOpen} className="group text-left">
    <span className="whitespace-nowrap">
      <span className="text-figure font-light tracking-tight">{Math.floor(outlook.minutes.ready)}</span>
      <span className="ml-1.5 text-quiet">of {outlook.minutes.contracted} min</span>
    </span>
    <span className="caption block underline decoration-control underline-offset-4 group-hover:decoration-ink">
      ready: {outlook.readySongs} of {outlook.songs.length} songs
    </span>
  </button>
);

/** Who is not there, and what nobody plays. */
const Seats = ({ gig, outlook }: { readonly gig: Gig; readonly outlook: GigOutlook }) => {
  const names = useNames();
  const href = useHref();
  if (outlook.seats.length === 0) return null;
  return (
    <ul className="-mt-3 mb-3 flex flex-wrap gap-x-6">
      {outlook.seats.map((seat) => (
        <li key={seat.chair.id}>
          <TextLink standing href={href(gigLink(gig.id))}>
            {seatSentence(seat, names)}
          </TextLink>
        </li>
      ))}
    </ul>
  );
};

/** What the whole board is for: the gig we look ahead to, and how much of it stands. */
export const GigHead = () => {
  const [{ gig, today }] = useViewpoint();
  const outlook = useOutlook();
  const href = useHref();
  const [open, setOpen] = useState(false);
  if (gig === null || outlook === null) {
    return (
      <>
        <PageHeading title="Board" above="No gig ahead" />
        <p className="-mt-3 mb-3 text-quiet">
          Scores are for today.{" "}
          <TextLink standing href={href(gigsLink())}>
            Plan a gig
          </TextLink>{" "}
          to see what is ready for its night.
        </p>
      </>
    );
  }
  const days = daysBetween(today, gig.date);
  return (
    <>
      <PageHeading
        title={gigName(gig)}
        above={`${dayWords(gig.date, { weekday: true, today })}, ${daysToGo(days)}${placeWords(gig)}`}
        aside={
          <>
            <GigChoice gig={gig} />
            <ReadyMinutes outlook={outlook} onOpen={() => setOpen(true)} />
          </>
        }
      />
      <Seats gig={gig} outlook={outlook} />
      <GigBreakdown
        open={open}
        onClose={() => setOpen(false)}
        title={capital(`${Math.floor(outlook.minutes.ready)} of ${gig.minutes} minutes are ready`)}
        above={gigName(gig)}
        outlook={outlook}
      />
    </>
  );
};

const placeWords = (gig: Gig): string => (gig.name !== "" && gig.place !== "" ? `, ${gig.place}` : "");
