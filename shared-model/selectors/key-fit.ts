/** Which keys would suit a singer in one song, read from the board: the question, the ranking, and both in words. */
import type { Gig, GigSong, Person } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, lineUpFor } from "../board/line-up.ts";
import type { Song } from "../board/song.ts";
import type { Voice } from "../board/voice.ts";
import { formatKey, type Key, parseKey, showKey } from "../music/key.ts";
import { type Melody, movedBy, rangeOf, sungMelody } from "../music/key-fit/melody.ts";
import { allKeys, type Hands, type KeyChoice, type KeyQuestion } from "../music/key-fit/rank-keys.ts";
import { noteName } from "../music/note-name.ts";
import { semitonesBetween } from "../music/transpose.ts";
import { parseTuning, STANDARD, tuningWords } from "../music/tuning.ts";
import { capital } from "../readiness/names.ts";
import { crossCheck, placeWords, type TermLine, termLines } from "./key-fit-words.ts";

type KeyBoard = Pick<Board, "band" | "chairs" | "people" | "songs">;

/** One key for the singer, ready to be shown. */
export interface KeyLine {
  /** As it is stored and ruled: `Eb`. */
  readonly key: string;
  /** As it is shown: `E♭`. */
  readonly name: string;
  /** `2 semitones below our key`. */
  readonly place: string;
  /** Semitones from our key. */
  readonly up: number;
  /** Lowest and highest note there. */
  readonly range: string;
  /** The melody there, as pitches with their shares. */
  readonly melody: Melody;
  readonly cost: number;
  /** Every term, those that cost most first. */
  readonly terms: readonly TermLine[];
  /** Who has to do what; empty = nobody. */
  readonly pays: readonly string[];
  readonly cautions: readonly string[];
  readonly crossCheck: string;
  /** Tuning in words and capo, as the song would say them. */
  readonly tuning: string;
  readonly capo: number;
}

export interface KeyFit {
  readonly singer: Person;
  readonly voice: Voice;
  /** What the ranking starts from: our key, or the recording's where ours is not settled. */
  readonly from: Key;
  /** At most five, the best first. */
  readonly best: readonly KeyLine[];
  /** The key it starts from, wherever it ranks. */
  readonly now: KeyLine;
  /** What had to be assumed, in whole sentences. */
  readonly notes: readonly string[];
}

/** Why there is no ranking yet. */
export type Missing = "song" | "singer" | "voice" | "melody" | "key";

/** Fret beyond which a capo is not thought of, unless the song has one there (common practice). */
const CAPO_MOST = 7;
const SHOWN = 5;

const keyOf = (text: string): Key | null => {
  const key = parseKey(text);
  return key.ok ? key.value : null;
};

/** A song's melody in another key, by the shorter way. */
export const melodyIn = ({ melody }: Pick<Song, "melody">, key: Key): Melody | null => {
  const given = melody === null ? null : keyOf(melody.key);
  const sung = melody === null ? null : sungMelody(melody);
  if (given === null || sung === null || !sung.ok) return null;
  return movedBy(sung.value, semitonesBetween(given, key));
};

/** The key a ranking starts from: ours, else the recording's, else the melody's. */
export const keyNow = (song: Pick<Song, "key" | "recordKey" | "melody">): Key | null =>
  keyOf(song.key) ?? keyOf(song.recordKey) ?? keyOf(song.melody?.key ?? "");

const ownTuning = (board: KeyBoard, song: Song, entry: GigSong | undefined): string =>
  entry?.tuning ?? (song.tuning || board.band.tuning);

/** The tuning most songs of a night are in, this one left out; the band's own on a tie and without a night. */
const usualTuning = (board: KeyBoard, song: Id, gig: Gig | null): number => {
  const usual = parseTuning(board.band.tuning)?.semitones ?? 0;
  const counts = new Map<number, number>();
  for (const entry of gig?.songs ?? []) {
    const file = board.songs.get(entry.song);
    if (file === undefined || entry.song === song) continue;
    const tuning = parseTuning(ownTuning(board, file.song, entry))?.semitones ?? usual;
    counts.set(tuning, (counts.get(tuning) ?? 0) + 1);
  }
  let [found, most] = [usual, counts.get(usual) ?? 0];
  for (const [tuning, count] of counts) if (count > most) [found, most] = [tuning, count];
  return found;
};

/** How the guitars play the song, null where none does; and what of it had to be assumed. */
const handsIn = (board: KeyBoard, file: SongFile) => {
  const { song } = file;
  const plays = board.chairs.some(
    ({ id, instrument }) => instrument === "guitar" && castingOf(file, id).plays,
  );
  const words = ownTuning(board, song, undefined);
  const tuning = parseTuning(words);
  const notes =
    plays && tuning === null ? [`“${words}” is no tuning we can count with: counted as standard.`] : [];
  const { semitones } = tuning ?? STANDARD;
  const { capo, openLow } = song;
  const hands: Hands | null = plays
    ? { matters: song.shapeMatters || "no", tuning: semitones, capo, openLow }
    : null;
  return { hands, words, notes };
};

const semitones = (n: number): string => (Math.abs(n) === 1 ? "1 semitone" : `${Math.abs(n)} semitones`);

/** What the lift adds on top, where it leaves the voice. */
const liftCaution = (
  song: Song,
  from: Key,
  choice: KeyChoice,
  melody: Melody,
  voice: Voice,
): readonly string[] => {
  const [ours, lift] = [keyOf(song.key) ?? from, keyOf(song.liftKey)];
  const up = lift === null ? 0 : semitonesBetween(ours, lift);
  const top = rangeOf(melody).high + up;
  if (up <= 0 || top <= voice.comfortHigh) return [];
  const [edge, name] =
    top > voice.highest ? [voice.highest, "limit"] : [voice.comfortHigh, "comfortable top"];
  return [
    `After the lift the top note is ${noteName(top, choice.key)}, ${semitones(top - edge)} above the ${name}.`,
  ];
};

/** What the ranking of one song's keys is asked; null where its key or its melody cannot be read. */
const questionOf = (board: KeyBoard, file: SongFile, voice: Voice, gig: Gig | null) => {
  const { song } = file;
  const from = keyNow(song);
  const melody = from === null ? null : melodyIn(song, from);
  if (from === null || melody === null) return null;
  const { hands, words, notes } = handsIn(board, file);
  const usual = usualTuning(board, song.id, gig);
  const record = keyOf(song.recordKey);
  const question: KeyQuestion = {
    melody,
    voice,
    key: from,
    recordUp: record === null ? 0 : semitonesBetween(from, record),
    hands,
    tunings: [...new Set([hands?.tuning ?? usual, usual, 0, -1, -2])],
    usual,
    capoMax: Math.max(CAPO_MOST, song.capo),
  };
  return { question, from, words, notes };
};

/** A voice for which every note is the same: what the hands pay does not hang on the singer. */
const ANY_VOICE: Voice = { lowest: 0, comfortLow: 0, comfortHigh: 127, highest: 127 };

/** Who has to do what in another key of one night; empty = nobody, or it cannot be said. */
export const paysIn = (board: KeyBoard, file: SongFile, gig: Gig | null, key: Key): readonly string[] => {
  const asked = questionOf(board, file, ANY_VOICE, gig);
  if (asked === null) return [];
  const up = semitonesBetween(asked.from, key);
  return (allKeys(asked.question).find((choice) => choice.up === up)?.pays ?? []).map(capital);
};

/**
 * The ranking for one singer, or what is missing for it.
 * @param gig the night whose tuning the guitars would rather stay in; null = the band's usual one
 */
export const keyFitOf = (
  board: KeyBoard,
  songId: Id,
  singerId: Id,
  gig: Gig | null = null,
): { readonly ok: true; readonly value: KeyFit } | { readonly ok: false; readonly error: Missing } => {
  const missing = (error: Missing) => ({ ok: false, error }) as const;
  const file = board.songs.get(songId);
  const singer = board.people.get(singerId);
  if (file === undefined) return missing("song");
  if (singer === undefined) return missing("singer");
  const { voice } = singer;
  const { song } = file;
  if (song.melody === null) return missing("melody");
  if (voice === null) return missing("voice");
  const asked = questionOf(board, file, voice, gig);
  if (asked === null) return missing("key");
  const { question, from, words, notes } = asked;
  const { melody, hands } = question;
  const lineOf = (choice: KeyChoice): KeyLine => {
    const there = movedBy(melody, choice.up);
    const { low, high } = rangeOf(there);
    return {
      key: formatKey(choice.key),
      name: showKey(choice.key),
      up: choice.up,
      place: placeWords(choice.up, song.key !== "" ? "our key" : "the recording's key"),
      range: `${noteName(low, choice.key)} to ${noteName(high, choice.key)}`,
      melody: there,
      cost: choice.cost,
      terms: termLines(question, choice, singer.name),
      pays: choice.pays.map(capital),
      cautions: [...choice.cautions, ...liftCaution(song, from, choice, there, voice)],
      crossCheck: crossCheck(there, voice),
      tuning: hands !== null && choice.tuning === hands.tuning ? words : tuningWords(choice.tuning),
      capo: hands === null ? song.capo : choice.capo,
    };
  };
  const ranked = allKeys(question);
  const now = ranked.find(({ up }) => up === 0);
  if (now === undefined) return missing("key");
  return {
    ok: true,
    value: { singer, voice, from, best: ranked.slice(0, SHOWN).map(lineOf), now: lineOf(now), notes },
  };
};

/** Whether somebody holds a lead voice in a song on a night, null = usually. */
export const leads = (board: KeyBoard, file: SongFile, gig: Gig | null, singer: Id): boolean => {
  const lineUp = lineUpFor(board, file, gig);
  return board.chairs.some(
    ({ id, instrument }) =>
      instrument === "lead voice" && lineUp.get(id) === singer && castingOf(file, id).plays,
  );
};

/**
 * Who might sing a song: whoever holds a lead voice in it first, then other voices, then whoever said what they can sing,
 * then everybody.
 */
export const singersOf = (board: KeyBoard, file: SongFile, gig: Gig | null): readonly Person[] => {
  const lineUp = lineUpFor(board, file, gig);
  const rank = (person: Person): number => {
    const seats = board.chairs.filter(({ id }) => lineUp.get(id) === person.id && castingOf(file, id).plays);
    if (leads(board, file, gig, person.id)) return 0;
    if (seats.some(({ instrument }) => instrument === "backing voice")) return 1;
    return person.voice !== null ? 2 : 3;
  };
  return [...board.people.values()]
    .map((person) => ({ person, at: rank(person) }))
    .sort((a, b) => a.at - b.at)
    .map(({ person }) => person);
};
