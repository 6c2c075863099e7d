import { addChair } from "../commands/add-chair.ts";
import { addPerson } from "../commands/add-person.ts";
import { startBand } from "../commands/start-band.ts";
import { chairId, personId } from "./demo-ids.ts";
import { BAND_NAME, DEMO_CHAIRS, DEMO_PEOPLE, LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";

/** The band, its people and its columns, half a year back. */
export const seedBand = ({ as, calendar }: Seeder, timeZone: string): void => {
  const then = calendar.at(-182, 18);
  as(LEADER, then, startBand, { name: BAND_NAME, timeZone, tuning: "standard", demo: true });
  for (const { code, name, dep } of DEMO_PEOPLE) {
    as(LEADER, then, addPerson, { name, dep }, personId(code));
  }
  for (const { code, name, instrument, holder } of DEMO_CHAIRS) {
    as(LEADER, then, addChair, { name, short: code, instrument, holder: personId(holder) }, chairId(code));
  }
};
