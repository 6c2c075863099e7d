import { callSongs } from "../commands/call-song.ts";
import { planGig } from "../commands/plan-gig.ts";
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
    for (const { song, gate, note } of gig.waivers) {
      const waiver = { gig: gigId(gig.code), song: songId(song), gate, note };
      as(LEADER, calendar.at(-10, 22.5), waiveGate, waiver);
    }
  }
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
