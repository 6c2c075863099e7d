import { useEffect, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import { mySource } from "#client/pieces/my-source.ts";
import { useBoardStore, useReadSongView, useViewpoint } from "#client/store/hooks.ts";
import { isOpen, isWaiting, myParts } from "#shared/selectors/my-parts.ts";
import type { Worth, WorthQuestion } from "#shared/selectors/worth-doing.ts";

/** Lines the screen keeps room for. */
const WORTH_SHOWN = 3;

/** Reads the member's open details of the songs, one song at a time. */
const useQuestions = (songs: readonly string[], member: string): (() => Generator<WorthQuestion>) => {
  const readView = useReadSongView();
  const { readiness } = useBoardStore();
  const [{ gig, night }] = useViewpoint();
  return function* () {
    for (const song of songs) {
      const view = readView(song);
      const source = mySource(view, member, gig, readiness);
      if (view === null || source === null) continue;
      const open = myParts(source, member)
        .flatMap(({ details }) => details)
        .filter((line) => isOpen(line) && !isWaiting(line));
      const cards = new Set(open.map(({ card }) => card.id));
      if (cards.size > 0) yield { input: { ...view.input, lineUp: source.lineUp, t: night }, cards };
    }
  };
};

/**
 * The details most worth doing, worked out once a visit after the screen has been painted, a few at a time. null =
 * not worked out yet. It is not worked out again on a tick, because nothing may move under the thumb.
 */
export const useWorth = (songs: readonly string[], member: string): readonly Worth[] | null => {
  const [worths, setWorths] = useState<readonly Worth[] | null>(null);
  const questions = useQuestions(songs, member);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once a visit; the list is keyed by member and gig
  useEffect(() => {
    let gone = false;
    let giveUp = (): void => undefined;
    const begin = async (): Promise<void> => {
      const { mostWorth, worthEach } = await import("#shared/selectors/worth-doing.ts");
      if (gone) return;
      giveUp = inSlices(worthEach(questions()), (found) => setWorths(mostWorth(found, WORTH_SHOWN)));
    };
    // Where its part of the page cannot be fetched, there is nothing to say.
    begin().catch(() => !gone && setWorths([]));
    return () => {
      gone = true;
      giveUp();
    };
  }, []);
  return worths;
};
