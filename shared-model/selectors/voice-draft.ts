/** What somebody can sing, as it is typed: four notes by name. */
import type { Voice } from "../board/voice.ts";
import type { Key } from "../music/key.ts";
import { checkVoice } from "../music/key-fit/voice.ts";
import { noteName, parseNote } from "../music/note-name.ts";

export const VOICE_NOTES = ["lowest", "comfortLow", "comfortHigh", "highest"] as const;
export type VoiceNote = (typeof VOICE_NOTES)[number];

export const VOICE_LABELS: Readonly<Record<VoiceNote, string>> = {
  lowest: "Lowest note at all",
  comfortLow: "Lowest comfortable note",
  comfortHigh: "Highest comfortable note",
  highest: "Highest note at all",
};

/** Octaves are counted in more ways than one; ours is said wherever a note is typed. */
export const OCTAVE_HINT = "C4 is middle C, A4 the tuning note.";

/** Away from any song, notes are spelled as in C. */
export const PLAIN_KEY: Key = { letter: "C", accidental: 0, mode: "major" };

export type VoiceText = Readonly<Record<VoiceNote, string>>;

export const voiceText = (voice: Voice | null): VoiceText => {
  const show = (note: VoiceNote): string => (voice === null ? "" : noteName(voice[note], PLAIN_KEY));
  return {
    lowest: show("lowest"),
    comfortLow: show("comfortLow"),
    comfortHigh: show("comfortHigh"),
    highest: show("highest"),
  };
};

/** What was read of four notes, or what is wrong and with which of them. */
export type VoiceReading =
  | { readonly ok: true; readonly voice: Voice | null }
  | { readonly ok: false; readonly note: VoiceNote; readonly error: string };

/** Four empty notes are a voice that was not said. */
export const readVoice = (text: VoiceText): VoiceReading => {
  if (VOICE_NOTES.every((note) => text[note].trim() === "")) return { ok: true, voice: null };
  const pitches = { lowest: 0, comfortLow: 0, comfortHigh: 0, highest: 0 };
  for (const note of VOICE_NOTES) {
    if (text[note].trim() === "")
      return { ok: false, note, error: "Give all four notes, or leave all four empty." };
    const read = parseNote(text[note]);
    if (!read.ok) return { ok: false, note, error: read.error };
    pitches[note] = read.value;
  }
  const checked = checkVoice(pitches);
  if (checked.ok) return { ok: true, voice: checked.value };
  const note =
    pitches.comfortLow >= pitches.comfortHigh ? "comfortHigh"
    : pitches.lowest > pitches.comfortLow ? "lowest"
    : "highest"; // biome-ignore format: one decision
  return { ok: false, note, error: checked.error };
};

/** `F3 to D5, comfortably G3 to B4`. */
export const voiceWords = (voice: Voice, key: Key = PLAIN_KEY): string => {
  const name = (pitch: number): string => noteName(pitch, key);
  return `${name(voice.lowest)} to ${name(voice.highest)}, comfortably ${name(voice.comfortLow)} to ${name(voice.comfortHigh)}`;
};
