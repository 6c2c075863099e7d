import { planRehearsal } from "../commands/plan-rehearsal.ts";
import { sayAway } from "../commands/say-who-is-here.ts";
import { addDays } from "../lib/calendar.ts";
import { personId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";

const PLANNED = -10;

/** The Wednesday before the first gig ahead, and the bass player's days off before the second. */
export const seedEvenings = ({ as, calendar }: Seeder): void => {
  const { gigDay } = calendar;
  as(LEADER, calendar.at(PLANNED, 22.6), planRehearsal, {
    day: addDays(gigDay, -3),
    start: "19:30",
    booked: 150,
    place: "Room 2, Old Tram Depot",
  });
  as("minjae", calendar.at(PLANNED, 22.7), sayAway, {
    person: personId("minjae"),
    from: addDays(gigDay, 9),
    to: addDays(gigDay, 12),
  });
};
