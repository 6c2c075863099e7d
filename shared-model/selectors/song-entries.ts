/**
 * What is written about a song, entry by entry: how each is called, shown, typed and read.
 * Governing rule: what `show` prints into a field, `read` takes back unchanged.
 */
import type { SongFile } from "../board/board.ts";
import type { Song } from "../board/song.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { isChord } from "../music/chord-root.ts";
import { formatLength, parseLength } from "../music/duration.ts";
import { formatKey, parseKey } from "../music/key.ts";
import { formatMetre, parseMetre } from "../music/metre.ts";
import { expectedSeconds, parseTempo } from "../music/tempo.ts";
import { semitonesBetween } from "../music/transpose.ts";
import { nightChord } from "./night-facts.ts";

/** The entries of a song that are typed as text, in the order they are shown. */
export const SONG_ENTRY_NAMES = [
  "version",
  "recordKey",
  "key",
  "liftKey",
  "tempo",
  "metre",
  "length",
  "countIn",
  "firstChord",
  "ending",
  "tuning",
  "capo",
  "notes",
] as const;
export type SongEntryName = (typeof SONG_ENTRY_NAMES)[number];

/** The new value of one entry, as the command takes it. */
export type SongFields = Partial<Omit<Pick<Song, SongEntryName>, "firstChord">> & {
  readonly firstChord?: string;
};

export interface SongEntry {
  readonly label: string;
  /** One line of help under the field. */
  readonly hint: string;
  /** As it stands in the field; empty = not settled yet. */
  readonly show: (song: Song) => string;
  /** What an empty entry means. */
  readonly empty: string;
  /** Reads what was typed; empty text means not settled. Refuses in one sentence. */
  readonly read: (text: string) => Result<SongFields>;
  /** What a ruling on it is about; null = nothing a band rules on. */
  readonly about: "version" | "key" | "tempo" | "count-in" | "ending" | "tuning" | null;
  /** A change may ask everybody to learn again. */
  readonly learnable: boolean;
  /** More than one line. */
  readonly long: boolean;
}

const LINE_MAX = 200;
const NOTE_MAX = 4000;
const CAPO_MAX = 12;

type TextEntry = "version" | "countIn" | "ending" | "tuning" | "notes";

const words =
  (name: TextEntry, max: number) =>
  (text: string): Result<SongFields> => {
    const said = text.trim();
    return said.length > max ? err(`Write at most ${max} characters.`) : ok({ [name]: said });
  };

const readKey =
  (name: "recordKey" | "key" | "liftKey") =>
  (text: string): Result<SongFields> => {
    if (text.trim() === "") return ok({ [name]: "" });
    const key = parseKey(text);
    return key.ok ? ok({ [name]: formatKey(key.value) }) : key;
  };

const readCapo = (text: string): Result<SongFields> => {
  const said = text.trim();
  const capo = said === "" ? 0 : /^\d{1,2}$/.test(said) ? Number(said) : Number.NaN;
  return capo <= CAPO_MAX ? ok({ capo }) : err(`A capo sits on a fret from 1 to ${CAPO_MAX}; 0 means none.`);
};

const entry = (
  name: SongEntryName,
  rest: Partial<SongEntry> & Pick<SongEntry, "label" | "read">,
): SongEntry => ({
  hint: "",
  show: (song) => String(song[name] ?? ""),
  empty: "not settled",
  about: null,
  learnable: false,
  long: false,
  ...rest,
});

const textEntry = (name: TextEntry, label: string, hint: string, rest: Partial<SongEntry> = {}): SongEntry =>
  entry(name, { label, hint, read: words(name, name === "notes" ? NOTE_MAX : LINE_MAX), ...rest });

const KEY_HINT = "A letter, then # or b, then m for minor: Em, F#m, Bb.";

/** Everything the song screen needs to know about an entry. */
export const SONG_ENTRY: { readonly [N in SongEntryName]: SongEntry } = {
  version: textEntry("version", "Version we learn", "Which recording or arrangement, in words.", {
    about: "version",
  }),
  recordKey: entry("recordKey", { label: "Key on the record", hint: KEY_HINT, read: readKey("recordKey") }),
  key: entry("key", {
    label: "Our key",
    hint: KEY_HINT,
    read: readKey("key"),
    about: "key",
    learnable: true,
  }),
  liftKey: entry("liftKey", {
    label: "Key after the lift",
    hint: `Empty when there is no lift. ${KEY_HINT}`,
    empty: "no lift",
    read: readKey("liftKey"),
  }),
  tempo: entry("tempo", {
    label: "Tempo",
    hint: "Beats per minute of the counted beat.",
    read: (text) => {
      if (text.trim() === "") return ok({ tempo: null });
      const tempo = parseTempo(text);
      return tempo.ok ? ok({ tempo: tempo.value }) : tempo;
    },
    about: "tempo",
    learnable: true,
  }),
  metre: entry("metre", {
    label: "Metre",
    hint: "4/4, 6/8, 3+2+2/8.",
    read: (text) => {
      const metre = parseMetre(text);
      return metre.ok ? ok({ metre: formatMetre(metre.value) }) : metre;
    },
  }),
  length: entry("length", {
    label: "Length",
    hint: "Minutes and seconds, as we play it: 3:45.",
    show: ({ length }) => (length === null ? "" : formatLength(length)),
    read: (text) => {
      if (text.trim() === "") return ok({ length: null });
      const length = parseLength(text);
      return length.ok ? ok({ length: length.value }) : length;
    },
  }),
  countIn: textEntry("countIn", "Count-in", "Who counts, and how many bars.", { about: "count-in" }),
  firstChord: entry("firstChord", {
    label: "First chord",
    hint: "One chord, as it sounds in our key: D5, Em7, F#/A#.",
    empty: "not said",
    show: (song) => nightChord(song, null),
    read: (text) => {
      const said = text.trim();
      const chord = said.slice(0, 1).toUpperCase() + said.slice(1);
      return chord === "" || isChord(chord)
        ? ok({ firstChord: chord })
        : err(
            `"${said.slice(0, 20)}" is not one chord. Write a letter from A to G and what is built on it: D5, Em7.`,
          );
    },
  }),
  ending: textEntry("ending", "Ending", "How it stops, and on whose cue.", {
    about: "ending",
    learnable: true,
  }),
  tuning: textEntry("tuning", "Tuning", "Empty = the band's usual one.", {
    about: "tuning",
    empty: "the usual one",
  }),
  capo: entry("capo", {
    label: "Capo",
    hint: "Fret; 0 = none.",
    empty: "none",
    show: ({ capo }) => (capo === 0 ? "" : String(capo)),
    read: readCapo,
  }),
  notes: textEntry("notes", "Notes", "In your own words; no lyrics and no whole tabs.", {
    empty: "none",
    long: true,
  }),
};

/** How far our key lies from the record's: `2 semitones down`; empty where one of them is not settled or equal. */
export const shiftWords = ({ recordKey, key }: Pick<Song, "recordKey" | "key">): string => {
  const [from, to] = [parseKey(recordKey), parseKey(key)];
  if (!from.ok || !to.ok) return "";
  const shift = semitonesBetween(from.value, to.value);
  if (shift === 0) return "";
  const count = Math.abs(shift);
  return `${count} ${count === 1 ? "semitone" : "semitones"} ${shift > 0 ? "up" : "down"}`;
};

/** Bars of the whole form, repeats counted. */
export const barsOf = ({ sections }: Pick<SongFile, "sections">): number =>
  sections.reduce((sum, { bars, repeats }) => sum + bars * repeats, 0);

/** Seconds the form lasts, each section in its own metre and tempo; null while one of them is not known. */
const formLength = ({ song, sections }: Pick<SongFile, "song" | "sections">): number | null => {
  let seconds = 0;
  for (const { bars, repeats, metre, tempo } of sections) {
    const read = parseMetre(metre === "" ? song.metre : metre);
    const bpm = tempo ?? song.tempo;
    if (bpm === null || !read.ok) return null;
    seconds += expectedSeconds(bars * repeats, bpm, read.value);
  }
  return seconds;
};

/** How far (share) form × tempo and the written length may differ before we say so: a ritardando, a held chord. */
const LENGTH_TOLERANCE = 0.05;

/** Bars × tempo against the written length. */
export interface LengthCheck {
  readonly bars: number;
  /** Seconds the form lasts at the tempo. */
  readonly seconds: number;
  /** They agree, or no length is written. */
  readonly agrees: boolean;
  /** `112 bars at 112 make 4:00`, and what is written where that differs. */
  readonly sentence: string;
}

/** Null while the form or the tempo is missing. */
export const checkLength = (file: Pick<SongFile, "song" | "sections">): LengthCheck | null => {
  const { tempo, length } = file.song;
  const bars = barsOf(file);
  const seconds = formLength(file);
  if (seconds === null || bars === 0) return null;
  const agrees = length === null || Math.abs(seconds - length) <= LENGTH_TOLERANCE * length;
  const oneTempo = tempo !== null && file.sections.every((section) => section.tempo === null);
  const made = `${bars} ${bars === 1 ? "bar" : "bars"} ${oneTempo ? `at ${tempo} ` : ""}make ${formatLength(seconds)}`;
  const written = length === null || agrees ? "" : `; written is ${formatLength(length)}`;
  return { bars, seconds, agrees, sentence: `${made}${written}.` };
};
