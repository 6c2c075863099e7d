/** A song nobody wrote: 24 bars of scales over a plain beat, with everything in it that a file can say. */
import type { TestNote, TestSong } from "./write-midi.ts";

const BAR = 4;
const bars = (from: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => (from + i) * BAR);
const KICK = 36;
const SNARE = 38;
const HATS = 42;
const CRASH = 49;

const beat = (at: number): readonly TestNote[] => [
  ...[0, 2.5].map((beat) => ({ at: at + beat, length: 0.25, pitch: KICK })),
  ...[1, 3].map((beat) => ({ at: at + beat, length: 0.25, pitch: SNARE, velocity: 100 })),
  ...[0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5].map((beat) => ({
    at: at + beat,
    length: 0.25,
    pitch: HATS,
    velocity: 60,
  })),
];

/** Intro 4 (keys alone), Verse 8, Chorus 8 (with crashes), Verse 4 half-time without voice. */
export const inventedSong = (change: Partial<TestSong> = {}): TestSong => ({
  title: "Paper Lantern",
  tempos: [{ at: 0, quarters: 96 }],
  metres: [{ at: 0, beats: 4, unit: 4 }],
  keys: [{ at: 0, signature: 2, minor: false }],
  marks: [
    { at: 0, name: "Intro" },
    { at: 16, name: "Verse" },
    { at: 48, name: "Chorus" },
    { at: 80, name: "Verse" },
  ],
  sung: ["secret", "words"],
  tracks: [
    {
      name: "Drum kit",
      channel: 9,
      notes: [
        ...bars(4, 16).flatMap(beat),
        ...[48, 64].map((at) => ({ at, length: 1, pitch: CRASH })),
        ...bars(20, 4).flatMap((at) => [
          { at, length: 0.25, pitch: KICK },
          { at: at + 2, length: 0.25, pitch: SNARE },
        ]),
      ],
    },
    {
      name: "Bass",
      channel: 1,
      program: 33,
      notes: bars(4, 20).flatMap((at) => [0, 2.5].map((beat) => ({ at: at + beat, length: 1, pitch: 38 }))),
    },
    {
      name: "Piano",
      channel: 2,
      program: 0,
      notes: bars(0, 24).flatMap((at) => [62, 66, 69].map((pitch) => ({ at, length: 4, pitch }))),
    },
    {
      name: "Voice",
      channel: 3,
      program: 53,
      // It waits two bars in the verse and climbs the scale of D.
      notes: [
        ...bars(6, 6).flatMap((at) => [62, 64].map((pitch, i) => ({ at: at + 2 * i, length: 2, pitch }))),
        ...bars(12, 8).flatMap((at) =>
          [66, 67, 69, 71].map((pitch, i) => ({ at: at + i, length: 1, pitch })),
        ),
      ],
    },
  ],
  ...change,
});
