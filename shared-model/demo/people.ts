import type { Instrument } from "../board/band.ts";
import { parseNote } from "../music/note-name.ts";
import type { ChairCode, PersonCode } from "./demo-data.ts";

export const BAND_NAME = "Six Spare Fuses";

/** The band's members in column order, then the substitute. All invented. */
export const DEMO_PEOPLE: readonly {
  readonly code: PersonCode;
  readonly name: string;
  readonly dep: boolean;
}[] = [
  { code: "tomasz", name: "Tomasz Wrzosnowicz", dep: false },
  { code: "ifeoma", name: "Ifeoma Adisalu", dep: false },
  { code: "minjae", name: "Min-jae Pardal", dep: false },
  { code: "lucia", name: "Lucía Borrasco", dep: false },
  { code: "anneli", name: "Anneli Kuusvirre", dep: false },
  { code: "priya", name: "Priya Sundarvane", dep: false },
  { code: "karim", name: "Karim Belhossat", dep: true },
];

/** Tomasz leads; Ifeoma lives in another city; bass and keys also sing backing. */
export const LEADER: PersonCode = "tomasz";

export const DEMO_CHAIRS: readonly {
  readonly code: ChairCode;
  readonly name: string;
  readonly instrument: Instrument;
  readonly holder: PersonCode;
}[] = [
  { code: "Gt1", name: "Guitar 1", instrument: "guitar", holder: "tomasz" },
  { code: "Gt2", name: "Guitar 2", instrument: "guitar", holder: "ifeoma" },
  { code: "Bs", name: "Bass, backing voice", instrument: "bass", holder: "minjae" },
  { code: "Dr", name: "Drums", instrument: "drums", holder: "lucia" },
  { code: "Ky", name: "Keys, backing voice", instrument: "keys", holder: "anneli" },
  { code: "Vx", name: "Lead voice", instrument: "lead voice", holder: "priya" },
];

/** A note of the demo by its MIDI number. */
export const pitchOf = (name: string): number => {
  const read = parseNote(name);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};

/** The lead singer's notes: what she can reach, where she is comfortable, and her top when tired. */
export const LEAD_VOICE = { full: ["F3", "D5"], comfortable: ["G3", "B4"], tiredTop: "A4" } as const;

/** What they sing: lowest, comfortable from and to, highest. */
export const DEMO_VOICES: readonly {
  readonly code: PersonCode;
  readonly notes: readonly [lowest: string, comfortLow: string, comfortHigh: string, highest: string];
}[] = [
  { code: "minjae", notes: ["A2", "C3", "E4", "G4"] },
  { code: "anneli", notes: ["G3", "A3", "C5", "E5"] },
  {
    code: "priya",
    notes: [LEAD_VOICE.full[0], LEAD_VOICE.comfortable[0], LEAD_VOICE.comfortable[1], LEAD_VOICE.full[1]],
  },
];
