import type { Instrument } from "./band.ts";

/** A chair before anybody sits on it. */
export interface ChairPlan {
  readonly name: string;
  /** At most four characters. */
  readonly short: string;
  readonly instrument: Instrument;
}

export interface LineUpPreset {
  readonly id: string;
  readonly name: string;
  readonly chairs: readonly ChairPlan[];
}

const GUITAR: ChairPlan = { name: "Guitar", short: "Gt", instrument: "guitar" };
const GUITAR_1: ChairPlan = { name: "Guitar 1", short: "Gt1", instrument: "guitar" };
const GUITAR_2: ChairPlan = { name: "Guitar 2", short: "Gt2", instrument: "guitar" };
const ACOUSTIC: ChairPlan = { name: "Acoustic guitar", short: "AGt", instrument: "guitar" };
const BASS: ChairPlan = { name: "Bass", short: "Bs", instrument: "bass" };
const DRUMS: ChairPlan = { name: "Drums", short: "Dr", instrument: "drums" };
const KEYS: ChairPlan = { name: "Keys", short: "Ky", instrument: "keys" };
const LEAD: ChairPlan = { name: "Lead voice", short: "Vx", instrument: "lead voice" };
const BACKING: ChairPlan = { name: "Backing voice", short: "Bv", instrument: "backing voice" };
const TRUMPET: ChairPlan = { name: "Trumpet", short: "Tp", instrument: "brass" };
const SAXOPHONE: ChairPlan = { name: "Saxophone", short: "Sx", instrument: "brass" };

/** Common line-ups to start a new band from; every chair can be changed afterwards. */
export const LINE_UP_PRESETS: readonly LineUpPreset[] = [
  { id: "trio", name: "Trio", chairs: [GUITAR, BASS, DRUMS, LEAD] },
  { id: "four", name: "Two guitars", chairs: [GUITAR_1, GUITAR_2, BASS, DRUMS, LEAD] },
  { id: "keys", name: "Guitar and keys", chairs: [GUITAR, BASS, DRUMS, KEYS, LEAD] },
  { id: "full", name: "Two guitars and keys", chairs: [GUITAR_1, GUITAR_2, BASS, DRUMS, KEYS, LEAD] },
  {
    id: "horns",
    name: "With horns",
    chairs: [GUITAR, BASS, DRUMS, KEYS, TRUMPET, SAXOPHONE, LEAD, BACKING],
  },
  { id: "unplugged", name: "Acoustic duo", chairs: [ACOUSTIC, LEAD, BACKING] },
];

/** The chairs of a preset in words: `Guitar, Bass, Drums, Lead voice`. */
export const chairWords = (preset: Pick<LineUpPreset, "chairs">): string =>
  preset.chairs.map(({ name }) => name).join(", ");
