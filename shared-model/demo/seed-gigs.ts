import { arrangeGig } from "../commands/arrange-gig.ts";
import { callSongs } from "../commands/call-song.ts";
import { planGig, reviseGig } from "../commands/plan-gig.ts";
import { seatForGig, waiveGate } from "../commands/seat-for-gig.ts";
import { addDays, type Day } from "../lib/calendar.ts";
import { CHAIR_CODES, type DemoGig } from "./demo-data.ts";
import { chairId, gigId, personId, songId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import { GIGS_AHEAD, NIGHTS_BEHIND } from "./season/nights.ts";
import type { Seeder } from "./seeder.ts";

const DAYS_OF_NOTICE = 28;
const BOOKED = -38;

/** The gigs behind us, each booked four weeks before it, then those ahead with the one gate the leader let pass. */
export const seedGigs = (seeder: Seeder): void => {
  const { as, calendar } = seeder;
  for (const { gig, night } of NIGHTS_BEHIND) {
    plan(seeder, gig, calendar.day(night.day), calendar.at(night.day - DAYS_OF_NOTICE, 12));
  }
  for (const gig of GIGS_AHEAD) {
    plan(seeder, gig, addDays(calendar.gigDay, gig.daysAfterFirst), calendar.at(BOOKED, 12));
    as(LEADER, calendar.at(BOOKED, 13), reviseGig, { gig: gigId(gig.code), ...gig.agreed });
    const order = blocksOf(gig.songs.map(songId), gig.agreed.blocks?.length ?? 1);
    as(LEADER, calendar.at(BOOKED, 13), arrangeGig, { gig: gigId(gig.code), blocks: order });
    for (const { song, gate, note } of gig.waivers) {
      const waiver = { gig: gigId(gig.code), song: songId(song), gate, note };
      as(LEADER, calendar.at(-10, 22.5), waiveGate, waiver);
    }
  }
};

/** The songs in as many blocks, as even as it goes. */
const blocksOf = (songs: readonly string[], count: number): string[][] => {
  const each = Math.ceil(songs.length / count);
  return Array.from({ length: count }, (_, i) => songs.slice(i * each, (i + 1) * each));
};

const plan = ({ as }: Seeder, gig: DemoGig, date: Day, at: number): void => {
  const id = gigId(gig.code);
  as(LEADER, at, planGig, { name: gig.name, date, minutes: gig.minutes, place: gig.place }, id);
  as(LEADER, at, callSongs, { gig: id, songs: gig.songs.map(songId) });
  for (const chair of CHAIR_CODES) {
    const member = gig.lineUp[chair];
    if (member === undefined) continue;
    as(LEADER, at, seatForGig, { gig: id, chair: chairId(chair), member: personId(member) });
  }
};
