import type { DemoRuling } from "../demo-data.ts";

/** What the band settled, so that nobody argues it again next month. */
// biome-ignore format: what, who and when in two lines
export const DEMO_RULINGS: readonly DemoRuling[] = [
  {
    song: "RW", about: "key", source: "ours", by: "priya", day: -150,
    text: "G. In A the last chorus sits on the ceiling from start to end.", before: "A",
  },
  {
    song: "EE", about: "version", source: "as recorded", by: "tomasz", day: -140,
    text: "The long version, because of the break.", before: "radio version",
  },
  {
    song: "QP", card: "QP3", about: "ending", source: "ours", by: "lucia", day: -103,
    text: "Runs down over two bars, last click drums alone.", before: "cut on the one, as recorded",
  },
  {
    song: "GL", about: "version", source: "live version", by: "priya", day: -112,
    text: "The one with the quiet last chorus; no lift.", before: "album version with the lift",
  },
  {
    song: "TC", card: "TC1", about: "ending", source: "live version", by: "anneli", day: -109,
    text: "Last line three times, third one slows, hit on the keys' nod.", before: "fade",
  },
  {
    song: "MD", about: "tuning", source: "ours", by: "tomasz", day: -105,
    text: "D-standard, so the riff keeps the record's shapes.", before: "standard, riff moved up",
  },
  {
    song: "LT", about: "key", source: "ours", by: "priya", day: -91,
    text: "C with capo 5: a fourth up for the voice, shapes as recorded.", before: "G",
  },
  {
    song: "UT", card: "UT2", about: "tempo", source: "ours", by: "lucia", day: -90,
    text: "168. Above 172 nobody can dance and nobody can play it.", before: "174, as recorded",
  },
  {
    song: "UT", card: "UT4", about: "detail", source: "ours", by: "tomasz", day: -79,
    text: "Guitar 2 is tacet in the verses; one edge is enough.", before: "both guitars skank",
  },
  {
    song: "SB", about: "version", source: "as recorded", by: "minjae", day: -95,
    text: "The rough demo, not the album.", before: "album version",
  },
  {
    song: "BL", about: "key", source: "ours", by: "priya", day: -60,
    text: "D.", before: "F",
  },
  {
    song: "WA", card: "WA1", about: "ending", source: "ours", by: "tomasz", day: -43,
    text: "Record fades; we hit on 4-and of the last vamp bar and stop dead.", before: "fade",
  },
  {
    song: "LO", card: "LO1", about: "ending", source: "live version", by: "priya", day: -30,
    text: "Last line unaccompanied, keys give D first.", before: "held chord under the last line",
  },
  {
    song: "LO", about: "key", source: "ours", by: "priya", day: -41,
    text: "C, lifting to D. Drop the lift on a tired night.", before: "Eb, lifting to F",
  },
  {
    song: "MM", about: "form", source: "ours", by: "anneli", day: -38,
    text: "One pre-chorus only; the second one keeps them waiting too long.", before: "two pre-choruses",
  },
  {
    song: "EE", card: "EE1", about: "ending", source: "as recorded", by: "anneli", day: -107,
    text: "Cut on beat 2, the echo does the rest.", before: "",
  },
];
