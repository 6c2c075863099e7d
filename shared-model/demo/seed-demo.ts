/**
 * Builds the demo band's board the way a band would: by commands, each by the member who would have run it and at
 * the time they would have. Governing rule: everything depends on `now` and the time zone alone, so the same two
 * give the same board.
 */
import type * as Y from "yjs";
import { createRunner } from "../commands/runner.ts";
import { createBoardDocument } from "../document/board-document.ts";
import { DEMO_DETAILS } from "./details/all-details.ts";
import { seedDrawings } from "./drawings.ts";
import { DEMO_RULINGS } from "./rulings.ts";
import { FIRST_HALF } from "./season/first-half.ts";
import { DEMO_HOMEWORK } from "./season/homework.ts";
import { NIGHTS_BEHIND } from "./season/nights.ts";
import { SECOND_HALF } from "./season/second-half.ts";
import { seasonCalendar } from "./season-calendar.ts";
import { seedBand } from "./seed-band.ts";
import { seedDetails } from "./seed-details.ts";
import { seedEvenings } from "./seed-evenings.ts";
import { seedGigs } from "./seed-gigs.ts";
import { seedHomework, seedNights, seedRehearsals } from "./seed-log.ts";
import { seedNothingSpecial, seedRulings, seedSong } from "./seed-songs.ts";
import { seedTextures } from "./seed-textures.ts";
import { createSeeder } from "./seeder.ts";
import { seedSides } from "./sides.ts";
import { DEMO_SONGS } from "./songs/all-songs.ts";

/**
 * Puts the demo band into an empty document.
 * @param now moment (ms) the visitor arrives; the first gig falls on the Saturday nearest to nine days later
 * @param timeZone IANA zone in which the band's days begin and end; throws RangeError for an unknown one
 */
export const seedDemo = (ydoc: Y.Doc, now: number, timeZone: string): void => {
  const runner = createRunner(createBoardDocument(ydoc));
  const seeder = createSeeder(runner, seasonCalendar(now, timeZone));
  seedBand(seeder, timeZone);
  for (const song of DEMO_SONGS) seedSong(seeder, song, DEMO_RULINGS);
  for (const details of DEMO_DETAILS) {
    seedDetails(seeder, details);
    seedNothingSpecial(seeder, details);
  }
  for (const song of DEMO_SONGS) seedRulings(seeder, song, DEMO_RULINGS);
  seedGigs(seeder);
  seedRehearsals(seeder, [...FIRST_HALF, ...SECOND_HALF]);
  seedNights(seeder, NIGHTS_BEHIND);
  seedHomework(seeder, DEMO_HOMEWORK);
  seedEvenings(seeder);
  seedDrawings(seeder);
  seedSides(seeder);
  seedTextures(seeder);
  runner.close();
};
