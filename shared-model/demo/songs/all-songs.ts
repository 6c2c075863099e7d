import type { DemoSong } from "../demo-data.ts";
import { GIVEN_SONGS } from "./given.ts";
import { BOOK_SONGS } from "./in-the-book.ts";
import { COMING_SONGS } from "./on-the-way.ts";
import { RESTING_SONGS } from "./resting.ts";

/** The whole repertoire, in the order of the board. */
export const DEMO_SONGS: readonly DemoSong[] = [
  ...GIVEN_SONGS,
  ...BOOK_SONGS,
  ...COMING_SONGS,
  ...RESTING_SONGS,
];
