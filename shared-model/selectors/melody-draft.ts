/** What a melody asks of a voice, as it is typed: three notes, or the time each note is sung. */
import type { SongMelody } from "../board/voice.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { formatKey, type Key, parseKey, showKey } from "../music/key.ts";
import { rangeOf, sungMelody } from "../music/key-fit/melody.ts";
import { noteName, parseNote } from "../music/note-name.ts";
import { PLAIN_KEY } from "./voice-draft.ts";

export const MELODY_NOTES = ["low", "typical", "high"] as const;
export type MelodyNote = (typeof MELODY_NOTES)[number];

export const MELODY_LABELS: Readonly<Record<MelodyNote, string>> = {
  low: "Lowest note",
  typical: "Where it mostly lies",
  high: "Highest note",
};

export type MelodyText = Readonly<Record<MelodyNote, string>>;

/** The key a melody is spelled in. */
export const keyOfMelody = ({ key }: Pick<SongMelody, "key">): Key => {
  const read = parseKey(key);
  return read.ok ? read.value : PLAIN_KEY;
};

/** The three notes of a melody, empty where it is none or given by times. */
export const melodyText = (melody: SongMelody | null): MelodyText => {
  if (melody === null || "histogram" in melody) return { low: "", typical: "", high: "" };
  const name = (pitch: number): string => noteName(pitch, keyOfMelody(melody));
  return { low: name(melody.low), typical: name(melody.typical), high: name(melody.high) };
};

/** What was read, or what is wrong and where; `note` null = the text of times. */
export type MelodyReading =
  | { readonly ok: true; readonly melody: SongMelody | null }
  | { readonly ok: false; readonly note: MelodyNote | null; readonly error: string };

/** Reads three notes in a key; three empty ones are a melody that was not said. */
export const readMelody = (text: MelodyText, key: Key): MelodyReading => {
  if (MELODY_NOTES.every((note) => text[note].trim() === "")) return { ok: true, melody: null };
  const pitches = { low: 0, typical: 0, high: 0 };
  for (const note of MELODY_NOTES) {
    if (text[note].trim() === "")
      return { ok: false, note, error: "Give all three notes, or leave all three empty." };
    const read = parseNote(text[note]);
    if (!read.ok) return { ok: false, note, error: read.error };
    pitches[note] = read.value;
  }
  const melody = { key: formatKey(key), ...pitches };
  const sung = sungMelody(melody);
  return sung.ok ? { ok: true, melody } : { ok: false, note: "typical", error: sung.error };
};

const LINES_MOST = 128;
const TIME_MOST = 1e6;

const timeOf = (line: string): Result<readonly [number, number]> => {
  const match = /^(\S+?)\s*[\s,;:]\s*(\d+(?:[.,]\d+)?)\s*$/u.exec(line);
  const note = /^\d{1,3}$/.test(match?.[1] ?? "") ? ok(Number(match?.[1])) : parseNote(match?.[1] ?? "");
  const time = Number((match?.[2] ?? "").replace(",", "."));
  if (match === null || !(time > 0 && time < TIME_MOST))
    return err(`“${line.slice(0, 30)}” is no note with its time. Write one a line, such as: A4 12.5`);
  if (!note.ok) return note;
  return note.value > 127
    ? err(`${note.value} is no note: they are numbered from 0 to 127.`)
    : ok([note.value, time]);
};

/** Reads lines of a note, by name or number, and how long it is sung, in any unit. */
export const readTimes = (text: string, key: Key): MelodyReading => {
  const lines = text.split(/\r?\n/u).filter((line) => line.trim() !== "");
  const wrong = (error: string): MelodyReading => ({ ok: false, note: null, error });
  if (lines.length === 0) return { ok: true, melody: null };
  if (lines.length > LINES_MOST) return wrong(`Give at most ${LINES_MOST} lines, one for each note.`);
  const times = new Map<number, number>();
  for (const line of lines) {
    const read = timeOf(line.trim());
    if (!read.ok) return wrong(read.error);
    const [pitch, time] = read.value;
    times.set(pitch, (times.get(pitch) ?? 0) + time);
  }
  return { ok: true, melody: { key: formatKey(key), histogram: [...times].sort(([a], [b]) => a - b) } };
};

/** `A4 12.5`, one a line. */
export const timesText = (melody: SongMelody | null): string =>
  melody !== null && "histogram" in melody
    ? melody.histogram.map(([pitch, time]) => `${noteName(pitch, keyOfMelody(melody))} ${time}`).join("\n")
    : "";

/** `B3 to C♯5, mostly around F♯4, in E`. */
export const melodyWords = (melody: SongMelody): string => {
  const key = keyOfMelody(melody);
  const sung = sungMelody(melody);
  if (!sung.ok) return "";
  const { low, high } = rangeOf(sung.value);
  const mean = [...sung.value].reduce((sum, [pitch, share]) => sum + pitch * share, 0);
  const usual = "histogram" in melody ? Math.round(mean) : melody.typical;
  return `${noteName(low, key)} to ${noteName(high, key)}, mostly around ${noteName(usual, key)}, in ${showKey(key)}`;
};
