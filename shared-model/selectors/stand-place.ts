/** Where a player is in a night on stage, and what changed on the board since the night was frozen. */
import type { StandNight, StandSong } from "./stand.ts";

/** Before, between and after the songs the stand pauses: nothing pulses, and only "on" goes on. */
export interface StandPlace {
  /** The song that is played, or the next one while paused; from 0, the number of songs = over. */
  readonly at: number;
  readonly paused: boolean;
}

export const STAND_START: StandPlace = { at: 0, paused: true };

export type StandStep = "next" | "back" | "pause";

/** Whether a song begins a block other than the one before it. */
const opensBlock = (songs: readonly Pick<StandSong, "block">[], at: number): boolean =>
  at === 0 || at >= songs.length || songs[at]?.block !== songs[at - 1]?.block;

/**
 * One step through the night. On from a pause comes the song; on from the last song of a block comes a pause. Back goes
 * to what stood there before; nothing goes beyond either end.
 */
export const stepOnStand = (
  songs: readonly Pick<StandSong, "block">[],
  { at, paused }: StandPlace,
  step: StandStep,
): StandPlace => {
  if (step === "pause") return { at, paused: at >= songs.length || !paused };
  if (step === "next") {
    if (at >= songs.length) return { at: songs.length, paused: true };
    return paused ? { at, paused: false } : { at: at + 1, paused: opensBlock(songs, at + 1) };
  }
  if (!paused && opensBlock(songs, at)) return { at, paused: true };
  return at === 0 ? STAND_START : { at: at - 1, paused: false };
};

/** The song a flag is for: the one that is played, or the last one while the next block has not begun. */
export const songInHand = <S extends Pick<StandSong, "block">>(
  songs: readonly S[],
  { at, paused }: StandPlace,
): S | undefined => songs[paused && opensBlock(songs, at) ? at - 1 : at];

/** What a pause is called. */
export const pauseWords = (songs: readonly Pick<StandSong, "block">[], at: number): string => {
  if (at >= songs.length) return "That was the last song";
  if (at === 0) return "Ready";
  return opensBlock(songs, at) ? `Break before block ${(songs[at]?.block ?? 0) + 1}` : "Pause";
};

/** The same song in another order; where it was dropped, the next one of the old order that is still played. */
export const placeAfter = (
  before: readonly Pick<StandSong, "id">[],
  after: readonly Pick<StandSong, "id">[],
  { at, paused }: StandPlace,
): StandPlace => {
  for (const song of before.slice(at)) {
    const found = after.findIndex(({ id }) => id === song.id);
    if (found >= 0) return { at: found, paused: paused || song.id !== before[at]?.id };
  }
  return { at: after.length, paused: true };
};

const numberless = (text: string): string => text.replace(/^\d+ /u, "");

const songChange = (was: StandSong, now: StandSong): string | null => {
  for (const { name, text } of now.lines) {
    const old = was.lines.find((line) => line.name === name)?.text ?? "";
    const [a, b] = name === "song" ? [numberless(old), numberless(text)] : [old, text];
    if (a !== b) return `${was.title}: ${b} instead of ${a}`;
  }
  return was.metre === now.metre ? null : `${was.title}: another metre`;
};

/** What is different from the frozen night, one short sentence a thing. */
const orderChanges = (frozen: StandNight, now: StandNight): readonly string[] => {
  const was = new Map(frozen.songs.map((song) => [song.id, song]));
  const is = new Set(now.songs.map(({ id }) => id));
  const out = frozen.songs.filter(({ id }) => !is.has(id)).map(({ title }) => `out: ${title}`);
  const number = (song: StandSong): number => now.songs.indexOf(song) + 1;
  const into = now.songs.filter(({ id }) => !was.has(id)).map((song) => `in: ${number(song)} ${song.title}`);
  const stayedBefore = frozen.songs.filter(({ id }) => is.has(id));
  const stayed = now.songs.filter(({ id }) => was.has(id));
  const moved = stayed.find((song, i) => song.id !== stayedBefore[i]?.id);
  const other = stayed.find((song) => song.block !== was.get(song.id)?.block);
  if (moved !== undefined) return [...out, ...into, `${number(moved)} is ${moved.title}`];
  return other === undefined
    ? [...out, ...into]
    : [...out, ...into, `${other.title} is in block ${other.block + 1}`];
};

const songChanges = (frozen: StandNight, now: StandNight): readonly string[] => {
  const was = new Map(frozen.songs.map((song) => [song.id, song]));
  return now.songs.flatMap((song) => {
    const old = was.get(song.id);
    const change = old === undefined ? null : songChange(old, song);
    return change === null ? [] : [change];
  });
};

/**
 * What is different on the board from the frozen night, in one line; empty = nothing. `now` null = the gig is not on the
 * board any more.
 */
export const changeOnStand = (frozen: StandNight, now: StandNight | null): string => {
  if (now === null) return "The gig was called off on the board.";
  const order = orderChanges(frozen, now);
  const songs = songChanges(frozen, now);
  const [first] = [...order, ...songs];
  if (first === undefined) return "";
  const more = order.length + songs.length - 1;
  const what = order.length > 0 ? "The leader changed the order" : "A song was changed";
  return `${what}: ${first}${more === 0 ? "" : `, and ${more} more`}`;
};
