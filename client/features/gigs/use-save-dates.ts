import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { type Dates, writeCalendar } from "#shared/exchange/calendar-file.ts";
import type { Day } from "#shared/lib/calendar.ts";

/** What the file is called by: a band or a gig, what it holds, and a day. */
export interface DatesName {
  readonly of: string;
  readonly what: "dates" | "gig" | "rehearsal";
  readonly day: Day;
}

/** Hands dates over as a calendar file. */
export const useSaveDates = (): ((dates: Partial<Dates>, name: DatesName) => void) => {
  const store = useBoardStore();
  const boardId = useBoardId();
  return ({ gigs = [], rehearsals = [] }, { of, what, day }) => {
    const source = { board: store.board(), boardId, now: store.now() };
    saveFile(fileName(of, what, day, "ics"), writeCalendar(source, { gigs, rehearsals }), "text/calendar");
  };
};
