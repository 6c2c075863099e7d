import { dayText } from "#client/pieces/day-text.ts";
import { gigLink, songLink } from "#client/pieces/links.ts";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useBand, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { writePerformed } from "#shared/exchange/performed-csv.ts";
import { debriefRows, swapSentences } from "#shared/selectors/debrief.ts";
import { Flagged } from "./flagged.tsx";
import { RightSoFar } from "./right-so-far.tsx";
import { useLog } from "./use-log.ts";

/** How it went, song by song, in ten minutes after the gig. */
export const DebriefScreen = ({ gig: id }: { readonly gig: string }) => {
  const board = useWholeBoard();
  const href = useHref();
  const [{ today }] = useViewpoint();
  const gig = board.gigs.find((one) => one.id === id);
  if (gig === undefined || gig.date > today)
    return (
      <>
        <PageHeading title="Debrief" />
        <EmptyState
          title={gig === undefined ? "This gig is not on the board" : "This gig has not been played yet"}
          action={
            <TextLink standing href={href(gig === undefined ? "/gigs" : gigLink(id))}>
              {gig === undefined ? "All gigs" : "Back to the gig"}
            </TextLink>
          }
        >
          {gig === undefined
            ? "It was called off, or has not reached this device yet."
            : "From the day of the gig on, each song gets its take here with one tap."}
        </EmptyState>
      </>
    );
  return <Debrief key={id} gig={gig} />;
};

const WENT = [
  { value: "clean", label: "clean" },
  { value: "wobble", label: "wobble" },
  { value: "stopped", label: "stopped" },
  { value: "no", label: "not played" },
] as const;

const Debrief = ({ gig }: { readonly gig: Gig }) => {
  const board = useWholeBoard();
  const href = useHref();
  const band = useBand();
  const [{ today }] = useViewpoint();
  const { role } = useAuthor();
  const { log, unlog, restClean } = useLog(gig);
  const rows = debriefRows(board, gig);
  const open = rows.filter(({ take, called }) => called && take === null).length;
  const played = rows.length - rows.filter(({ take }) => take === null).length;
  const save = () =>
    saveFile(fileName(band.name, "performed", gig.date, "csv"), writePerformed(board, gig), "text/csv");
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
      <SectionHeading title="How it went" aside={`${played} of ${rows.length} logged`} />
      {rows.length === 0 ? <p className="text-quiet">No song was called for this gig.</p> : null}
      <ol>
        {rows.map((row) => (
          <li
            key={row.song}
            data-song={row.song}
            className="flex flex-wrap items-center gap-x-6 gap-y-1 border-b border-line py-2"
          >
            <a
              href={href(songLink(row.song))}
              className="inline-flex min-h-11 min-w-40 flex-1 items-center decoration-control underline-offset-4 hover:underline dense:min-h-6"
            >
              {row.title}
              {row.called ? "" : " (not called)"}
            </a>
            {role === "guest" ? (
              <span>{row.take?.feel ?? "not logged"}</span>
            ) : (
              <Choice
                label={`How ${row.title} went`}
                hideLabel
                className="w-full laptop:w-96"
                value={row.take === null ? null : row.take.feel}
                options={WENT}
                onChange={(went) => (went === "no" ? unlog(row) : log(row, went))}
              />
            )}
          </li>
        ))}
      </ol>
      {swapSentences(rows).map((sentence) => (
        <p key={sentence} className="pt-2 text-quiet">
          {sentence}
        </p>
      ))}
      <div className="flex flex-wrap gap-3 py-4 no-print">
        {role === "guest" || open === 0 ? null : (
          <Button tone="main" onClick={() => restClean(rows)}>
            {open === rows.length ? "All clean" : `The other ${open} clean`}
          </Button>
        )}
        {played === 0 ? null : <Button onClick={save}>Titles performed, as CSV</Button>}
      </div>
      {role === "guest" ? null : <Flagged gig={gig} rows={rows} />}
      {role === "leader" ? (
        <>
          <SectionHeading title="Was “ready” right?" />
          <RightSoFar />
        </>
      ) : null}
    </div>
  );
};
