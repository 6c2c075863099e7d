/**
 * From where we look at the board: which gig, on which day. Every screen of one device shares it, so that
 * no two numbers on one screen are for different nights.
 */
import type { Gig } from "#shared/board/band.ts";
import type { Board } from "#shared/board/board.ts";
import { dayOf, endOfDay } from "#shared/lib/calendar.ts";

export interface Viewpoint {
  /** Today in the band's time zone, `YYYY-MM-DD`. */
  readonly today: string;
  /** End of today, ms: scores "today" are for this moment and read the log up to it. */
  readonly endOfToday: number;
  /** The gig we look ahead to; null while none is planned. */
  readonly gig: Gig | null;
  /** End of the gig's day, ms; end of today without a gig. */
  readonly night: number;
}

/** The next gig from `today` on, or null. */
export const nextGig = (board: Board, today: string): Gig | null =>
  board.gigs.find((gig) => gig.date >= today) ?? null;

/**
 * The viewpoint for a moment. A chosen gig that was called off gives way to the next one.
 * A gig in the past is looked at from its own night.
 */
export const viewpointAt = (board: Board, now: number, chosenGig: string | null): Viewpoint => {
  const { timeZone } = board.band;
  const today = dayOf(now, timeZone);
  const endOfToday = endOfDay(today, timeZone);
  const gig = board.gigs.find(({ id }) => id === chosenGig) ?? nextGig(board, today);
  return { today, endOfToday, gig, night: gig === null ? endOfToday : endOfDay(gig.date, timeZone) };
};

/** True when both look from the same place. */
export const sameViewpoint = (a: Viewpoint, b: Viewpoint): boolean =>
  a.endOfToday === b.endOfToday && a.gig === b.gig && a.night === b.night;
