import { useMemo } from "react";
import { useAways, useChairs, usePeople } from "#client/store/hooks.ts";
import type { Gig } from "#shared/board/band.ts";
import type { Day } from "#shared/lib/calendar.ts";
import { type Missing, missingOn } from "#shared/selectors/evenings.ts";

/** Who of those that hold a chair said they are away on a day; for a gig, of those in its own line-up. */
export const useMissing = (day: Day, gig: Pick<Gig, "lineUp"> | null = null): readonly Missing[] => {
  const aways = useAways();
  const people = usePeople();
  const chairs = useChairs();
  return useMemo(() => missingOn({ aways, people, chairs }, day, gig), [aways, people, chairs, day, gig]);
};
