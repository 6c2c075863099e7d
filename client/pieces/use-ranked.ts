import { useEffect, useState } from "react";
import { useBand, useBoardStore, useReadSongView, useViewpoint } from "#client/store/hooks.ts";
import { myParts, mySongs } from "#shared/selectors/my-parts.ts";
import {
  byValueAndAge,
  canPractise,
  lastPlayed,
  type PracticeWorth,
  staleness,
} from "#shared/selectors/practice-list.ts";
import type { PracticeItem } from "#shared/selectors/practice-sitting.ts";
import { worthEach } from "#shared/selectors/worth-doing.ts";
import { inSlices } from "./in-slices.ts";
import { mySource } from "./my-source.ts";

/** Reads what each of the member's details would gain, one by one: in the gig's songs, else in the others. */
const useWorths = (member: string): (() => Generator<PracticeWorth, void>) => {
  const store = useBoardStore();
  const readView = useReadSongView();
  const { settings, timeZone } = useBand();
  const [{ gig, night, today }] = useViewpoint();
  const ofSong = function* (song: string): Generator<PracticeWorth, void> {
    const view = readView(song);
    const source = mySource(view, member, gig, store.readiness);
    if (view === null || source === null) return;
    const age = new Map<string, number>();
    for (const line of myParts(source, member).flatMap(({ details }) => details)) {
      if (!canPractise(line)) continue;
      const stale = staleness(lastPlayed(view.file, line.card, member, { today, timeZone }), settings);
      if (stale > 0) age.set(line.card.id, stale);
    }
    const input = { ...view.input, lineUp: source.lineUp, t: night };
    for (const worth of worthEach([{ input, cards: new Set(age.keys()) }]))
      yield { ...worth, stale: age.get(worth.card.id) ?? 0 };
  };
  return function* () {
    const { called, others } = mySongs(store.board(), gig, member);
    for (const songs of [called, others]) {
      let found = false;
      for (const song of songs)
        for (const worth of ofSong(song)) {
          found ||= worth.difference > 0;
          yield worth;
        }
      if (found) return;
    }
  };
};

const itemOf = ({ song, card }: PracticeWorth): PracticeItem => ({ song, card: card.id });

/**
 * The member's details in the order in which practising them is worth most; worked out once a visit, after the
 * screen has been painted. null = not yet.
 */
export const useRanked = (member: string): readonly PracticeItem[] | null => {
  const [ranked, setRanked] = useState<readonly PracticeItem[] | null>(null);
  const worths = useWorths(member);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once a visit, so that nothing moves under the thumb
  useEffect(() => inSlices(worths(), (found) => setRanked(byValueAndAge(found).map(itemOf))), []);
  return ranked;
};
