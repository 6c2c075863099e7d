import { BAND_CASES } from "./band-cases.ts";
import type { CommandCase } from "./case.ts";
import { DETAIL_CASES } from "./detail-cases.ts";
import { EVENING_CASES } from "./evening-cases.ts";
import { GIG_CASES } from "./gig-cases.ts";
import { HISTORY_CASES } from "./history-cases.ts";
import { SONG_CASES } from "./song-cases.ts";
import { TEXTURE_CASES } from "./texture-cases.ts";

/** A case for every command but `takeBack`, which needs another to take back. */
export const ALL_CASES: Readonly<Record<string, CommandCase>> = {
  ...BAND_CASES,
  ...SONG_CASES,
  ...DETAIL_CASES,
  ...GIG_CASES,
  ...EVENING_CASES,
  ...HISTORY_CASES,
  ...TEXTURE_CASES,
};
