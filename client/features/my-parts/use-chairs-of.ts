import { useChairs, useViewpoint } from "#client/store/hooks.ts";
import type { Chair } from "#shared/board/band.ts";

/** The chairs somebody holds, usually or at the gig we look at. */
export const useChairsOf = (member: string): readonly Chair[] => {
  const chairs = useChairs();
  const [{ gig }] = useViewpoint();
  return chairs.filter(({ id, holder }) => holder === member || gig?.lineUp.get(id) === member);
};
