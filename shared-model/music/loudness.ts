/**
 * How long a loudness is commonly thought bearable at work; a guide for people, measured by nothing here.
 * NIOSH, *Criteria for a Recommended Standard: Occupational Noise Exposure*, 98-126 (1998): 85 dB(A) for eight hours, every
 * 3 dB more halve the time.
 */

/** Recommended limit in dB(A) over eight hours, and the step that halves the time. */
const LIMIT_DB = 85;
const EXCHANGE_DB = 3;
const SHIFT_MINUTES = 480;

/** Levels that a meter in a room can show, dB(A). Nobody should ever be in more than the highest (NIOSH 98-126, 1.1). */
export const LEVEL_LEAST = 30;
export const LEVEL_MOST = 140;
const DAY_MINUTES = 1440;

/** So many minutes at one level, dB(A). */
export interface Stretch {
  readonly level: number;
  readonly minutes: number;
}

/** Minutes a day at a level in dB(A) after which the guide is used up. */
export const guideMinutes = (level: number): number =>
  SHIFT_MINUTES / 2 ** ((level - LIMIT_DB) / EXCHANGE_DB);

/** Share of a day's guide that the stretches use up together; 1 = all of it, 2 = twice as much. Their order is all one. */
export const dose = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, { level, minutes }) => sum + minutes / guideMinutes(level), 0);

/** The steady level, dB(A), that would use up the same in eight hours; null for nothing at all. */
export const eightHourLevel = (share: number): number | null =>
  share > 0 ? 10 * Math.log10(share) + LIMIT_DB : null;

/** Minutes at a level until the guide is used up, what has been counted in; 0 when it is. */
export const minutesLeft = (share: number, level: number): number =>
  Math.max(0, 1 - share) * guideMinutes(level);

/** Why this cannot be counted, in a sentence that says what to do; null when it can. `before`: what is counted already. */
export const stretchFault = (
  level: number | null,
  minutes: number | null,
  before: readonly Stretch[],
): { readonly field: "level" | "minutes"; readonly sentence: string } | null => {
  if (level === null || !(level >= LEVEL_LEAST && level <= LEVEL_MOST))
    return {
      field: "level",
      sentence: `Give the level that a meter shows, from ${LEVEL_LEAST} to ${LEVEL_MOST} dB(A). Nothing here measures it.`,
    };
  const room = DAY_MINUTES - before.reduce((sum, stretch) => sum + stretch.minutes, 0);
  if (minutes === null || !(minutes > 0)) return { field: "minutes", sentence: "Say for how many minutes." };
  return minutes > room
    ? { field: "minutes", sentence: `A day has ${DAY_MINUTES} minutes: ${room} of them are left.` }
    : null;
};
