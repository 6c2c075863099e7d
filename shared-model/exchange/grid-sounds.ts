/** What a row of a grid sounds and looks like outside. Sources beside the tables. */
import type { Instrument } from "../board/band.ts";
import type { GridVoice } from "../board/grid.ts";

/** Something of the kit that is struck. */
export interface Struck {
  readonly name: string;
  /** Key number of General MIDI's percussion map (MMA RP-003, 1991), played on channel 10. */
  readonly key: number;
  /** Where it stands on a staff with a percussion clef, which is read like a treble clef (W3C MusicXML 4.0, unpitched). */
  readonly step: string;
  readonly octave: number;
  /** A notehead of MusicXML; empty = a plain one. */
  readonly head: "" | "x" | "diamond";
}

/** Something that plays notes, of which a grid knows only when: all stand on the key note, in this register. */
export interface Pitched {
  readonly name: string;
  /** The key note is taken from the octave that begins here; C4 = 60. */
  readonly lowest: number;
  /** Program of General MIDI, counted from 0 as in the file (RP-003 counts from 1). */
  readonly program: number;
  readonly clef: "G" | "F";
  /** True where it is written an octave above its sound. */
  readonly octaveDown: boolean;
}

export type Sound =
  | { readonly kind: "struck"; readonly struck: Struck }
  | { readonly kind: "pitched"; readonly pitched: Pitched };

const struck = (
  name: string,
  key: number,
  step: string,
  octave: number,
  head: Struck["head"] = "",
): Sound => ({ kind: "struck", struck: { name, key, step, octave, head } });

const pitched = (name: string, lowest: number, program: number, clef: "G" | "F", down = false): Sound => ({
  kind: "pitched",
  pitched: { name, lowest, program, clef, octaveDown: down },
});

/**
 * What a voice of a grid is. Kick, snare and hats stand where the percussion tutorial of W3C MusicXML 4.0 puts them; the
 * rest is common practice, no published source.
 */
const VOICES: { readonly [V in GridVoice]: Sound } = {
  kick: struck("Kick", 36, "F", 4),
  snare: struck("Snare", 38, "C", 5),
  hats: struck("Hats", 42, "G", 5, "x"),
  crash: struck("Crash", 49, "A", 5, "diamond"),
  ride: struck("Ride", 51, "F", 5, "x"),
  toms: struck("Toms", 45, "D", 5),
  clap: struck("Clap", 39, "E", 5, "x"),
};

const SINGING = pitched("Voice", 60, 52, "G");

/** What a chair plays as a whole. A kit without a voice is its kick: what the others lock with. */
const CHAIRS: { readonly [I in Instrument]: Sound } = {
  guitar: pitched("Guitar", 45, 27, "G", true),
  bass: pitched("Bass", 28, 33, "F", true),
  drums: VOICES.kick,
  keys: pitched("Keys", 60, 0, "G"),
  "lead voice": SINGING,
  "backing voice": SINGING,
  brass: pitched("Brass", 58, 61, "G"),
  other: pitched("Other", 60, 0, "G"),
};

/** The sound of a row: of its voice, and where none is said of the chair's instrument. */
export const soundOf = (voice: GridVoice | undefined, instrument: Instrument): Sound =>
  voice === undefined ? CHAIRS[instrument] : VOICES[voice];
