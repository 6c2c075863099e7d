import { useEffect, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import type { SongView } from "#client/store/song-view.ts";
import { biggestFirst, type Raise, raiseEach } from "#shared/readiness/raise.ts";

/**
 * Every single action tried after the panel has been painted, a few at a time: on a song with eighty details that is
 * a tenth of a second of work in all. While a change is being worked out the last answer stays; null = none yet.
 */
export const useRaises = (view: SongView): readonly Raise[] | null => {
  const [raises, setRaises] = useState<readonly Raise[] | null>(null);
  const { input, people } = view;
  useEffect(() => {
    const steps = raiseEach(input, [...people.keys()]);
    return inSlices(steps, (found) => setRaises(found.sort(biggestFirst)));
  }, [input, people]);
  return raises;
};
