/** The chord that a song of the demo begins on, in the band's key. */
import type { SongCode } from "../demo-data.ts";

export const FIRST_CHORDS: Readonly<Partial<Record<SongCode, string>>> = {
  MD: "D5",
  TC: "A9",
  LT: "Cmaj7",
  UT: "C",
  WA: "Em7",
  LO: "C",
  RW: "G",
  EE: "Em",
  QP: "Am7",
  NW: "Dm",
  GL: "D/F#",
  PP: "E7",
  SB: "Ab",
  VB: "Gm7",
  CT: "G5",
};
