import { memo, useMemo } from "react";
import { useBand, useGigs, useViewpoint } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { type Day, dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { occasionsOfEntry, occasionWords } from "#shared/selectors/history/entry-facts.ts";
import type { HistoryLine } from "#shared/selectors/history/history-lines.ts";
import type { Whose } from "./use-whose.ts";

export interface EntryListProps {
  /** Latest first. */
  readonly lines: readonly HistoryLine[];
  /** The day that stands last above this list; its heading is not repeated. */
  readonly under: Day | null;
  readonly whose: Whose;
  readonly onOpen: (line: HistoryLine) => void;
}

interface DayOfLines {
  readonly day: Day;
  readonly lines: readonly HistoryLine[];
}

const byDay = (lines: readonly HistoryLine[], timeZone: string): readonly DayOfLines[] => {
  const days: { day: Day; lines: HistoryLine[] }[] = [];
  for (const line of lines) {
    const day = dayOf(line.entry.at, timeZone);
    const last = days.at(-1);
    if (last?.day === day) last.lines.push(line);
    else days.push({ day, lines: [line] });
  }
  return days;
};

const EntryRow = ({
  line,
  whose,
  onOpen,
}: Pick<EntryListProps, "whose" | "onOpen"> & { readonly line: HistoryLine }) => {
  const { timeZone } = useBand();
  const from = whose(line);
  return (
    <li className="border-b border-line">
      <button
        type="button"
        onClick={() => onOpen(line)}
        className="group flex min-h-12 w-full items-start gap-3 py-2.5 text-left -outline-offset-2"
      >
        <span className="caption w-11 shrink-0 pt-0.5">{clockWords(line.entry.at, timeZone)}</span>
        <span className="min-w-0 flex-1">
          <span className="decoration-control underline-offset-4 group-hover:underline">
            <span className="font-semibold">{line.who}</span> {line.what}
          </span>
          {from === "" ? null : <span className="caption block">{from}</span>}
        </span>
      </button>
    </li>
  );
};

/** Entries of one page under their days; drawn again only when something of that page changes. */
export const EntryList = memo(({ lines, under, whose, onOpen }: EntryListProps) => {
  const { timeZone } = useBand();
  const gigs = useGigs();
  const [{ today }] = useViewpoint();
  const days = useMemo(() => byDay(lines, timeZone), [lines, timeZone]);
  return days.map(({ day, lines: ofDay }, place) => (
    <section key={day} aria-label={dayWords(day, { weekday: true, today })}>
      {place === 0 && day === under ? null : (
        <SectionHeading
          title={dayWords(day, { weekday: true, today })}
          aside={occasionWords(
            ofDay.flatMap(({ entry }) => occasionsOfEntry(entry)),
            gigs,
          )}
        />
      )}
      <ol>
        {ofDay.map((line) => (
          <EntryRow key={line.entry.id} line={line} whose={whose} onOpen={onOpen} />
        ))}
      </ol>
    </section>
  ));
});
