import { useMemo, useState } from "react";
import {
  useAways,
  useBand,
  useBoardStore,
  useGigs,
  usePeople,
  useRehearsal,
  useViewpoint,
} from "#client/store/hooks.ts";
import type { Gig } from "#shared/board/band.ts";
import type { Rehearsal } from "#shared/board/rehearsal.ts";
import { dayOf, endOfDay } from "#shared/lib/calendar.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import type { PlanQuestion } from "#shared/plan/evening-plan.ts";
import { eveningOn, gigOfEvening } from "#shared/selectors/evenings.ts";
import { type Phased, type PlayStretch, phasesOf, stretchOf } from "#shared/selectors/plan-stretch.ts";

export interface Evening {
  readonly evening: Rehearsal;
  readonly gig: Gig | null;
  readonly stretch: PlayStretch;
  readonly phased: Phased;
  /** Where we are in time, ms: when this was asked for, or the beginning of an evening ahead. */
  readonly now: number;
  /** What the plan is to answer, on the board as it is when this is called. */
  readonly ask: () => PlanQuestion;
  /** Differs whenever the question does, but for news of the songs: nothing moves under the reader's hand. */
  readonly key: string;
  /** Asks anew, on the board as it is now. */
  readonly askAnew: () => void;
  /** When something so many minutes after the beginning is: `19:45`, else `after 15 min`. */
  readonly when: (minutes: number) => string;
}

/** Everything the plan of one evening rests on. */
export const useEvening = (day: string): Evening => {
  const store = useBoardStore();
  const { timeZone } = useBand();
  const people = usePeople();
  const aways = useAways();
  const gigs = useGigs();
  const said = useRehearsal(day);
  const [{ today }] = useViewpoint();
  const [asked, setAsked] = useState(() => store.now());
  const evening = useMemo(() => said ?? eveningOn({ rehearsals: [] }, day), [said, day]);
  const gig = gigOfEvening({ gigs }, evening);
  const stretch = useMemo(() => stretchOf(evening, timeZone, asked), [evening, timeZone, asked]);
  const phased = useMemo(
    () => phasesOf({ people, aways }, evening, stretch),
    [people, aways, evening, stretch],
  );
  const now = Math.max(asked, stretch.begin ?? (day > today ? endOfDay(day, timeZone) : asked));
  const night = endOfDay(gig?.date ?? dayOf(now, timeZone), timeZone);
  const ask = (): PlanQuestion => {
    const { songs, chairs, band } = store.board();
    const board = { songs, chairs, people: store.board().people, band };
    return { board, gig, night, now, phases: phased.phases, pins: evening.pins };
  };
  const phases = phased.phases.map(({ minutes, present, standIns }) => [minutes, [...present], standIns]);
  const called = gig?.songs.map(({ song }) => song);
  const key = JSON.stringify([asked, now, night, gig?.id, called, phases, [...evening.pins]]);
  const { begin } = stretch;
  const when = (minutes: number): string =>
    begin === null ? `after ${Math.round(minutes)} min` : clockWords(begin + minutes * 60_000, timeZone);
  return { evening, gig, stretch, phased, now, ask, key, askAnew: () => setAsked(store.now()), when };
};
