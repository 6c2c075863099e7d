import { useState } from "react";
import { historyLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useKnownBands } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { PastRepertoire } from "./past-repertoire.tsx";
import { RestoreAll } from "./restore-all.tsx";
import { type Moment, useMoment } from "./use-moment.ts";

export interface MomentScreenProps {
  /** The season's document. */
  readonly document: string;
  /** The last stored change that counts. */
  readonly seq: number;
}

const TITLE = "The board as it was";

const Then = ({ moment, open }: { readonly moment: Moment; readonly open: boolean }) => {
  const href = useHref();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const { at, board, values } = moment;
  const words =
    at === null
      ? "before anything was on it"
      : `${dayWords(dayOf(at, timeZone), { weekday: true, today })} at ${clockWords(at, timeZone)}`;
  return (
    <>
      <PageHeading title={TITLE} above={at === null ? board.band.name : `${board.band.name}, ${words}`} />
      <p className="pb-4 text-quiet">
        To be read only: songs, details, marks and takes as they stood {at === null ? words : "then"}.
      </p>
      {at !== null && open ? (
        <RestoreAll moment={at} words={words} past={values} />
      ) : (
        <p className="text-quiet">
          {open
            ? "There is nothing here to go back to."
            : "This season is closed: it can be read, and nothing of it put back."}
        </p>
      )}
      <p className="pt-2">
        <TextLink standing href={href(historyLink())}>
          Back to the history
        </TextLink>
      </p>
      <PastRepertoire board={board} />
    </>
  );
};

const ForLeaders = ({ document, seq }: MomentScreenProps) => {
  const board = useBoardId();
  const [tries, setTries] = useState(0);
  const moment = useMoment(document, seq, tries);
  const open = useKnownBands().find((band) => band.board === board)?.document === document;
  if (moment?.ok) return <Then moment={moment.value} open={open} />;
  return (
    <>
      <PageHeading title={TITLE} />
      {moment === null ? (
        <p className="caption py-3">Reading the history</p>
      ) : (
        <ErrorNote
          title={moment.error.message}
          action={
            moment.error.retriable ? (
              <Button onClick={() => setTries(tries + 1)}>Try again</Button>
            ) : undefined
          }
        />
      )}
    </>
  );
};

/** The whole board at one moment of its history. For leaders. */
export const MomentScreen = (props: MomentScreenProps) => {
  const leads = useAuthor().role === "leader";
  return (
    <div className="max-w-3xl">
      {leads ? (
        <ForLeaders {...props} />
      ) : (
        <>
          <PageHeading title={TITLE} />
          <EmptyState title="The history is the leader's to read.">
            Ask the leader of the band to look something up or to put it back.
          </EmptyState>
        </>
      )}
    </div>
  );
};
