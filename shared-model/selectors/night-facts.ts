/** What is typed about a song for a night, and what follows from it. */
import type { Song } from "../board/song.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { chordIn } from "../music/chord-root.ts";
import { formatKey, parseKey } from "../music/key.ts";
import { semitonesBetween, transposeKey } from "../music/transpose.ts";

const LEAST = 0.5;
const MOST = 20;

/** Reads a tolerance in percent: `2`, `1,5 %`; empty = the usual one. */
export const readTolerance = (text: string): Result<number | null> => {
  const said = text.trim().replace(",", ".").replace(/\s*%$/, "");
  if (said === "") return ok(null);
  const value = /^\d{1,2}(\.\d{1,2})?$/.test(said) ? Number(said) : Number.NaN;
  return value >= LEAST && value <= MOST
    ? ok(value)
    : err(`A tolerance is a number of percent from ${LEAST} to ${MOST}.`);
};

/** A key of the night moves the lift with it; where one of them cannot be read it stays as written. */
export const nightLift = (
  { key, liftKey }: Pick<Song, "key" | "liftKey">,
  tonight: string | null,
): string => {
  const [from, to, up] = [parseKey(key), parseKey(tonight ?? key), parseKey(liftKey)];
  if (!from.ok || !to.ok || !up.ok) return liftKey;
  const shift = semitonesBetween(from.value, to.value);
  return shift === 0 ? liftKey : formatKey(transposeKey(up.value, shift));
};

/** The first chord as it is called in the key of the night, else in ours; as written where a key cannot be read. */
export const nightChord = (
  { key, firstChord }: Pick<Song, "key" | "firstChord">,
  tonight: string | null,
): string => {
  if (firstChord === null) return "";
  const [from, to] = [parseKey(firstChord.key || key), parseKey(tonight ?? key)];
  return !from.ok || !to.ok ? firstChord.chord : chordIn(firstChord.chord, from.value, to.value);
};
