import { addChair } from "../commands/add-chair.ts";
import { addPerson, revisePerson } from "../commands/add-person.ts";
import { startBand } from "../commands/start-band.ts";
import { chairId, personId } from "./demo-ids.ts";
import { BAND_NAME, DEMO_CHAIRS, DEMO_PEOPLE, DEMO_VOICES, LEADER, pitchOf } from "./people.ts";
import type { Seeder } from "./seeder.ts";

/** The band, its people and its columns, half a year back. */
export const seedBand = ({ as, calendar }: Seeder, timeZone: string): void => {
  const then = calendar.at(-182, 18);
  as(LEADER, then, startBand, { name: BAND_NAME, timeZone, tuning: "standard", demo: true });
  for (const { code, name, dep } of DEMO_PEOPLE) {
    as(LEADER, then, addPerson, { name, dep }, personId(code));
  }
  for (const { code, notes } of DEMO_VOICES) {
    const [lowest = 0, comfortLow = 0, comfortHigh = 0, highest = 0] = notes.map(pitchOf);
    as(code, then, revisePerson, {
      person: personId(code),
      voice: { lowest, comfortLow, comfortHigh, highest },
    });
  }
  for (const { code, name, instrument, holder } of DEMO_CHAIRS) {
    as(LEADER, then, addChair, { name, short: code, instrument, holder: personId(holder) }, chairId(code));
  }
};
