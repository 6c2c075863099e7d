import { useMemo, useState } from "react";
import { useBand, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { songsOfEntry } from "#shared/selectors/history/entry-facts.ts";
import type { HistoryLine } from "#shared/selectors/history/history-lines.ts";
import { EntryList } from "./entry-list.tsx";
import { EntrySheet } from "./entry-sheet.tsx";
import { type Page, type Pages, usePages } from "./use-pages.ts";
import { useWhose } from "./use-whose.ts";

/** What the list is narrowed to; empty = everything. */
export interface HistoryFilter {
  readonly member: string;
  readonly song: string;
}

export interface SeasonHistoryProps {
  readonly document: string;
  /** False for a season that was closed. */
  readonly open: boolean;
  readonly filter: HistoryFilter;
}

const shownOf = ({ lines, history }: Page, { member, song }: HistoryFilter): readonly HistoryLine[] =>
  member === "" && song === ""
    ? lines
    : lines.filter(
        ({ entry }) =>
          (member === "" || entry.author.member === member) &&
          (song === "" || songsOfEntry(entry, history.end).has(song)),
      );

/** The lower end of the list: further back, why not, or that this is all. */
const FurtherBack = ({ pages, whole, busy, problem, loadEarlier }: Pages) => {
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const since = pages.at(-1)?.since;
  const back = since === undefined ? "" : dayWords(dayOf(since, timeZone), { weekday: true, today });
  if (problem !== null)
    return (
      <ErrorNote
        title={problem.message}
        action={problem.retriable ? <Button onClick={loadEarlier}>Try again</Button> : undefined}
      >
        {problem.retriable
          ? "The history lies on the server and needs a signal. The board works without."
          : null}
      </ErrorNote>
    );
  if (whole) return <p className="caption">This is where the history of this season begins.</p>;
  return (
    <div className="flex flex-wrap items-center gap-4">
      <Button disabled={busy} onClick={loadEarlier}>
        {busy ? "Reading the history" : "Load earlier"}
      </Button>
      {back === "" ? null : <p className="caption">Read back to {back}.</p>}
    </div>
  );
};

/** One season's history, latest first, as far back as somebody has asked for. */
export const SeasonHistory = ({ document, open, filter }: SeasonHistoryProps) => {
  const pages = usePages(document);
  const whose = useWhose(pages.pages);
  const { timeZone } = useBand();
  const [opened, setOpened] = useState<HistoryLine | null>(null);
  const { member, song } = filter;
  const shown = useMemo(
    () => pages.pages.map((page) => ({ page, lines: shownOf(page, { member, song }) })),
    [pages.pages, member, song],
  );
  const home = shown.find(({ lines }) => opened !== null && lines.includes(opened));
  const none = shown.every(({ lines }) => lines.length === 0);
  if (none && pages.whole && pages.pages.length === 0)
    return (
      <EmptyState title="Nothing was changed in this season yet.">
        What anybody changes on the board stands here afterwards, with who did it and a way back.
      </EmptyState>
    );
  const lastDay = (before: number): string | null => {
    const line = shown
      .slice(0, before)
      .findLast(({ lines }) => lines.length > 0)
      ?.lines.at(-1);
    return line === undefined ? null : dayOf(line.entry.at, timeZone);
  };
  const unread = pages.pages.reduce((sum, { history }) => sum + history.issues.length, 0);
  return (
    <>
      {none && pages.pages.length > 0 ? (
        <p className="py-4 text-quiet">Nothing of this kind in what has been read so far.</p>
      ) : null}
      {shown.map(({ page, lines }, place) => (
        <EntryList key={page.from} lines={lines} under={lastDay(place)} whose={whose} onOpen={setOpened} />
      ))}
      <div className="mt-6 flex flex-col items-start gap-4">
        <FurtherBack {...pages} />
        {unread === 0 ? null : (
          <p className="caption">
            {unread === 1 ? "1 stored change" : `${unread} stored changes`} could not be read and told.
          </p>
        )}
      </div>
      {opened === null || home === undefined ? null : (
        <EntrySheet
          line={opened}
          history={home.page.history}
          document={document}
          open={open}
          from={whose(opened)}
          onClose={() => setOpened(null)}
        />
      )}
    </>
  );
};
