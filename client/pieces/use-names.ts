import { useMemo } from "react";
import { useChairs, usePeople } from "#client/store/hooks.ts";
import { type Names, namesOf } from "#shared/readiness/names.ts";

/** What people call members and chairs; the same reference while neither changes. */
export const useNames = (): Names => {
  const chairs = useChairs();
  const people = usePeople();
  return useMemo(() => namesOf({ chairs, people }), [chairs, people]);
};
