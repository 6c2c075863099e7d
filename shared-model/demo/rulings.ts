import type { DemoRuling } from "./demo-data.ts";

/** What the band settled, so that nobody argues it again next month. In order of time within each song. */
// biome-ignore format: who and when, then what
export const DEMO_RULINGS: readonly DemoRuling[] = [
  { song: "RW", about: "key", source: "ours", by: "priya", day: -150, text: "G", before: "A" },
  { song: "EE", about: "version", source: "as recorded", by: "tomasz", day: -140,
    text: "long version", before: "radio version" },
  { song: "EE", card: "EE1", about: "ending", source: "as recorded", by: "anneli", day: -107,
    text: "cut on beat 2, only the keys' echo stays", before: "" },
  { song: "GL", about: "version", source: "live version", by: "priya", day: -110,
    text: "live version with the quiet last chorus", before: "album version with the lift" },
  { song: "TC", card: "TC1", about: "ending", source: "live version", by: "anneli", day: -109,
    text: "last line three times, third slows, hit on keys' nod", before: "fade" },
  { song: "MD", about: "tuning", source: "ours", by: "tomasz", day: -105, text: "D-standard", before: "" },
  { song: "QP", card: "QP3", about: "ending", source: "ours", by: "lucia", day: -103,
    text: "machine rhythm runs down, last click is drums alone", before: "cut on the one, as recorded" },
  { song: "SB", about: "version", source: "as recorded", by: "minjae", day: -95,
    text: "demo version, rougher than the album's", before: "album version" },
  { song: "LT", about: "key", source: "ours", by: "priya", day: -91, text: "C", before: "G" },
  { song: "UT", card: "UT2", about: "tempo", source: "ours", by: "lucia", day: -90,
    text: "168. Above 172 nobody can dance to it and nobody can play it.", before: "174" },
  { song: "UT", card: "UT4", about: "detail", source: "ours", by: "tomasz", day: -79,
    text: "Guitar 2 is tacet in the verses: one edge is enough." },
  { song: "BL", about: "key", source: "ours", by: "priya", day: -60, text: "D", before: "F" },
  { song: "WA", card: "WA1", about: "ending", source: "ours", by: "tomasz", day: -43,
    text: "record fades; ours: hit on 4-and", before: "" },
  { song: "LO", about: "key", source: "ours", by: "priya", day: -41, text: "C", before: "Eb" },
  { song: "LO", card: "LO1", about: "ending", source: "live version", by: "priya", day: -30,
    text: "last line unaccompanied, keys give D first", before: "held chord under the last line" },
  { song: "MM", about: "form", source: "ours", by: "anneli", day: -38,
    text: "One pre-chorus only; a second one keeps them waiting too long." },
];
