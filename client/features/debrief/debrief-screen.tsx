import { useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { gigLink } from "#client/pieces/links.ts";
import { NoGig } from "#client/pieces/no-gig.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import type { Id } from "#shared/board/ids.ts";
import { debriefRows, openRows, swapSentences } from "#shared/selectors/debrief.ts";
import { AlsoPlayed } from "./also-played.tsx";
import { CameAfterAll } from "./came-after-all.tsx";
import { Flagged } from "./flagged.tsx";
import { NightNote } from "./night-note.tsx";
import { RightSoFar } from "./right-so-far.tsx";
import { SongRow } from "./song-row.tsx";
import { TitlesPerformed } from "./titles-performed.tsx";
import { useLog } from "./use-log.ts";

/** How it went, song by song, in ten minutes after the gig. */
export const DebriefScreen = ({ gig: id }: { readonly gig: string }) => {
  const board = useWholeBoard();
  const href = useHref();
  const [{ today }] = useViewpoint();
  const gig = board.gigs.find((one) => one.id === id);
  if (gig === undefined) return <NoGig title="Debrief" />;
  if (gig.date > today)
    return (
      <>
        <PageHeading title="Debrief" />
        <EmptyState
          title="This gig has not been played yet"
          action={
            <TextLink standing href={href(gigLink(id))}>
              Back to the gig
            </TextLink>
          }
        >
          From the day of the gig on, each song gets its take here with one tap.
        </EmptyState>
      </>
    );
  return <Debrief key={id} gig={gig} />;
};

const Debrief = ({ gig }: { readonly gig: Gig }) => {
  const board = useWholeBoard();
  const href = useHref();
  const [{ today }] = useViewpoint();
  const { role } = useAuthor();
  const [also, setAlso] = useState<readonly Id[]>([]);
  const { restClean, ...logging } = useLog(gig);
  const rows = debriefRows(board, gig, also);
  const open = openRows(rows).length;
  const said = rows.filter(({ take, leftOut }) => take !== null || leftOut).length;
  const writes = role !== "guest";
  return (
    <div className="max-w-4xl">
      <PageHeading
        title="Debrief"
        above={
          <TextLink
            href={href(gigLink(gig.id))}
          >{`${gig.name || gig.place} · ${dayText(gig.date, today)}`}</TextLink>
        }
      />
      <SectionHeading title="How it went" aside={`${said} of ${rows.length} logged`} />
      <CameAfterAll gig={gig} />
      {rows.length === 0 ? <p className="text-quiet">No song was called for this gig.</p> : null}
      <ol>
        {rows.map((row) => (
          <SongRow key={row.song} row={row} {...logging} />
        ))}
      </ol>
      {swapSentences(rows).map((sentence) => (
        <p key={sentence} className="pt-2 text-quiet">
          {sentence}
        </p>
      ))}
      {writes ? (
        <div className="flex flex-wrap items-end gap-3 py-4 no-print">
          {open === 0 ? null : (
            <Button tone="main" onClick={() => restClean(rows)}>
              {open === rows.length ? "All clean" : `The other ${open} clean`}
            </Button>
          )}
          <AlsoPlayed rows={rows} onAdd={(song) => setAlso([...also, song])} />
        </div>
      ) : null}
      {writes ? <Flagged gig={gig} rows={rows} /> : null}
      <NightNote gig={gig} />
      <TitlesPerformed gig={gig} rows={rows} />
      {role === "leader" ? (
        <>
          <SectionHeading title="Was “ready” right?" />
          <RightSoFar />
        </>
      ) : null}
    </div>
  );
};
