import { recall, remember } from "#client/pieces/device-memory.ts";

const FIRST_DAY = "first-day";
/** Changes of one visit after which Tightrow is more than looked at. */
const CHANGES = 5;

/**
 * True from the second day of use on, or after five changes: before that, nobody is asked to keep anything.
 * `today` is a day of the device's own clock, `YYYY-MM-DD`; `changes` one's own of this visit.
 */
export const usedEnough = (today: string, changes: number): boolean => {
  const first = recall(FIRST_DAY);
  if (first === null) remember(FIRST_DAY, today);
  return changes >= CHANGES || (first ?? today) < today;
};
