import { createValueStore, type StoredValues } from "../document/stored-values.ts";
import type { History } from "./history.ts";

/** How many steps were taken when row `seq` was the last: 0 before the first. */
export const placeOf = (history: Pick<History, "steps">, seq: number): number => {
  let low = 0;
  let high = history.steps.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((history.steps[middle]?.seq ?? 0) <= seq) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** A walk through a history, in either direction, at the cost of the changes it walks over. */
export interface PastValues extends StoredValues {
  /** Steps taken. */
  readonly place: () => number;
  /** Goes to where `place` steps are taken; values read afterwards are those of then. */
  readonly goTo: (place: number) => void;
}

/** Starts at the latest step. */
export const walkHistory = (history: History): PastValues => {
  const values = createValueStore(history.end);
  const { steps } = history;
  let place = steps.length;
  return {
    get: values.get,
    entries: values.entries,
    place: () => place,
    goTo: (target) => {
      const goal = Math.max(0, Math.min(target, steps.length));
      for (; place < goal; place++)
        for (const { map, key, after } of steps[place]?.changes ?? []) values.put(map, key, after);
      for (; place > goal; place--)
        for (const { map, key, before } of steps[place - 1]?.changes ?? []) values.put(map, key, before);
    },
  };
};

/** What stood after row `seq`, for itself: later walking does not change it. */
export const valuesAt = (history: History, seq: number): StoredValues => {
  const walk = walkHistory(history);
  walk.goTo(placeOf(history, seq));
  return walk;
};
