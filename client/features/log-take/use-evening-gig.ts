import { useGigs, useRehearsal, useViewpoint } from "#client/store/hooks.ts";
import type { Gig } from "#shared/board/band.ts";

/** The gig that this evening was said to be for, else the one all numbers are for; null = none. */
export const useEveningGig = (): Gig | null => {
  const [{ today, gig }] = useViewpoint();
  const chosen = useRehearsal(today)?.gig ?? null;
  return useGigs().find(({ id }) => id === chosen) ?? gig;
};
