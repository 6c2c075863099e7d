import CalendarArrowDown from "lucide-react/icons/calendar-arrow-down";
import Printer from "lucide-react/icons/printer";
import { useState } from "react";
import { useLocation } from "wouter";
import { dayText } from "#client/pieces/day-text.ts";
import { boardLink, debriefLink, loadInLink, planLink, standLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useMissing } from "#client/pieces/use-missing.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { Figure } from "#client/ui/figure.tsx";
import { later } from "#client/ui/later.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { usePrinting } from "#client/ui/use-printing.ts";
import type { Gig } from "#shared/board/band.ts";
import { cancelGig, restoreGig } from "#shared/commands/remove-record.ts";
import { missingWords } from "#shared/selectors/evenings.ts";
import { leads } from "#shared/selectors/key-fit.ts";
import { Agreed } from "./agreed.tsx";
import { BelowLine } from "./below-line.tsx";
import { CallSheet } from "./call-sheet.tsx";
import { GigForm } from "./gig-form.tsx";
import { GigLineUp } from "./gig-line-up.tsx";
import { GigOrder } from "./gig-order.tsx";
import { KeysAsked } from "./keys-asked.tsx";
import { useGig } from "./use-gig.ts";
import { useSaveDates } from "./use-save-dates.ts";

const Tonight = later(async () => (await import("./tonight.tsx")).Tonight, "min-h-48");
const WhatIfPanel = later(async () => (await import("./what-if-panel.tsx")).WhatIfPanel, "min-h-96");
const SpareList = later(async () => (await import("./spare-list.tsx")).SpareList, "min-h-96");
const NightPlot = later(async () => (await import("./night-plot.tsx")).NightPlot, "min-h-64");

const NoGig = ({ gig }: { readonly gig: string }) => {
  const act = useAct();
  const href = useHref();
  const off = useWholeBoard().removed.has(`gigs/${gig}`);
  const looking = useAuthor().role === "guest";
  const back = (
    <div className="flex flex-wrap items-center gap-4">
      {off && !looking ? (
        <Button tone="main" onClick={() => act(restoreGig, { id: gig }, "The gig is on again")}>
          It is on again
        </Button>
      ) : null}
      <TextLink standing href={href("/gigs")}>
        All gigs
      </TextLink>
    </div>
  );
  return (
    <>
      <PageHeading title="Gig" />
      <EmptyState title={off ? "This gig was called off" : "This gig is not on the board"} action={back}>
        {off
          ? "Everything written about it is kept and comes back with it."
          : "It may not have reached this device yet, or the link is cut short."}
      </EmptyState>
    </>
  );
};

const CallOff = ({ gig, onClose }: { readonly gig: Gig; readonly onClose: () => void }) => {
  const act = useAct();
  const [, go] = useLocation();
  const off = () => {
    onClose();
    if (act(cancelGig, { id: gig.id }, `Called off: ${gig.name || gig.place}`)) go("/gigs");
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="Call this gig off?"
      actions={
        <>
          <Button tone="danger" onClick={off}>
            Call it off
          </Button>
          <Button data-first-focus onClick={onClose}>
            Leave it on
          </Button>
        </>
      }
    >
      It leaves the list for everybody. Its songs, line-up and log are kept, and it can be brought back.
    </Dialog>
  );
};

const Tools = ({ gig, ahead }: { readonly gig: Gig; readonly ahead: boolean }) => {
  const [viewpoint, lookAt] = useViewpoint();
  const [, go] = useLocation();
  const looking = useAuthor().role === "guest";
  const [open, setOpen] = useState<"form" | "call off" | null>(null);
  const close = () => setOpen(null);
  const saveDates = useSaveDates();
  const calendar = () =>
    saveDates({ gigs: [gig] }, { of: gig.name || gig.place, what: "gig", day: gig.date });
  const show = () => {
    lookAt(gig.id);
    go(boardLink());
  };
  return (
    <div className="mt-10 flex flex-wrap items-center gap-3 border-t border-line pt-4">
      {ahead && viewpoint.gig?.id !== gig.id ? (
        <Button onClick={show}>Look at the board for this gig</Button>
      ) : null}
      <Button icon={CalendarArrowDown} onClick={calendar}>
        Calendar file
      </Button>
      {looking ? null : (
        <>
          <Button onClick={() => setOpen("form")}>Change day, place or minutes</Button>
          <Button tone="danger" onClick={() => setOpen("call off")}>
            Call it off
          </Button>
        </>
      )}
      {open === "form" ? <GigForm gig={gig} onClose={close} /> : null}
      {open === "call off" ? <CallOff gig={gig} onClose={close} /> : null}
    </div>
  );
};

/** What a player opens on the night. */
const OnTheNight = ({ gig: { id: gig, date } }: { readonly gig: Gig }) => {
  const href = useHref();
  const [{ today }] = useViewpoint();
  return (
    <p className="no-print flex flex-wrap items-center gap-x-6">
      <TextLink standing href={href(standLink(gig))}>
        Stand
      </TextLink>
      <TextLink standing href={href(loadInLink(gig))}>
        Load in
      </TextLink>
      {date < today ? null : (
        <TextLink standing href={href(planLink())}>
          Plan the room
        </TextLink>
      )}
      {date > today ? null : (
        <TextLink standing href={href(debriefLink(gig))}>
          Debrief
        </TextLink>
      )}
      <Button tone="quiet" icon={Printer} onClick={() => window.print()}>
        Call sheet
      </Button>
    </p>
  );
};

/** Leads to the line-up, where somebody else is seated. */
const MissingThere = ({ gig }: { readonly gig: Gig }) => {
  const words = missingWords(useMissing(gig.date, gig), useNames());
  if (words === "") return null;
  const show = () => document.getElementById("line-up")?.scrollIntoView();
  return (
    <p className="mb-4 flex flex-wrap items-center gap-x-4 gap-y-1 text-accent">
      {words}.
      <Button tone="quiet" onClick={show}>
        Seat somebody that night
      </Button>
    </p>
  );
};

/** For whoever sings lead that night, on their own device. */
const TonightFold = ({ gig }: { readonly gig: Gig }) => {
  const board = useWholeBoard();
  const { member, role } = useAuthor();
  if (member === null || role === "guest") return null;
  const sings = gig.songs.some(({ song }) => {
    const file = board.songs.get(song);
    return file !== undefined && leads(board, file, gig, member);
  });
  return sings ? (
    <Accordion size="room" summary="Tonight's top" className="no-print">
      <Tonight gig={gig} member={member} />
    </Accordion>
  ) : null;
};

/** One gig: how much of it stands, what is played in which order, and by whom. */
export const GigScreen = ({ gig: id }: { readonly gig: string }) => {
  const reading = useGig(id);
  const [{ today }] = useViewpoint();
  const printing = usePrinting();
  if (reading === null) return <NoGig gig={id} />;
  const { gig, outlook } = reading;
  const ahead = gig.date >= today;
  const above = [dayText(gig.date, today), gig.place].filter((part) => part !== "").join(" · ");
  return (
    <>
      {printing ? <CallSheet gig={gig} /> : null}
      <div className="max-w-4xl print:hidden">
        <PageHeading
          title={gig.name || gig.place || "A gig without a name"}
          above={above}
          aside={
            ahead ? (
              <Figure
                size="large"
                value={Math.floor(outlook.minutes.ready)}
                unit={`of ${outlook.minutes.contracted} min`}
                label={`ready: ${outlook.readySongs} of ${outlook.songs.length} songs`}
              />
            ) : null
          }
        />
        {ahead ? <MissingThere gig={gig} /> : null}
        <OnTheNight gig={gig} />
        <KeysAsked gig={gig} />
        {gig.date === today ? <TonightFold gig={gig} /> : null}
        {ahead ? <BelowLine songs={outlook.songs} /> : null}
        <GigOrder reading={reading} ahead={ahead} />
        {ahead && gig.songs.length > 0 ? (
          <div className="mt-6 no-print">
            <Accordion size="room" summary="What if?">
              <WhatIfPanel gig={gig} />
            </Accordion>
            <Accordion size="room" summary="Spares and stale songs">
              <SpareList gig={gig} />
            </Accordion>
            <Accordion size="room" summary="From today to the night">
              <NightPlot gig={gig} />
            </Accordion>
          </div>
        ) : null}
        <GigLineUp gig={gig} outlook={outlook} />
        <Agreed gig={gig} />
        <Tools gig={gig} ahead={ahead} />
      </div>
    </>
  );
};
