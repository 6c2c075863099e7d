/** How long a loudness is commonly thought bearable at work; a guide for people, measured by nothing here. */

/** Recommended limit in dB(A) over eight hours, and the step that halves the time. NIOSH 98-126 (1998). */
const LIMIT_DB = 85;
const EXCHANGE_DB = 3;
const SHIFT_MINUTES = 480;

/** Minutes a day at a level in dB(A) after which the guide is used up. */
export const guideMinutes = (level: number): number =>
  SHIFT_MINUTES / 2 ** ((level - LIMIT_DB) / EXCHANGE_DB);
