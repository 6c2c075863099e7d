/**
 * Readiness that remembers: after one tick only the ticked units and the sums are computed again,
 * after one take only that song.
 * Governing rule: every answer is bit-identical to the pure functions', because it is put together from the same
 * pieces; only pieces whose inputs are the same are kept.
 */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { cutOf, type ScoreInput } from "./score-input.ts";
import {
  type OwnResult,
  ownScore,
  type Readings,
  readSong,
  type SongScore,
  statusFor,
  sumUp,
} from "./song-score.ts";

export interface Readiness {
  /** As the pure scoreSong; the same object again while nothing it depends on has changed. */
  readonly scoreSong: (input: ScoreInput) => SongScore;
  /** Forgets songs that are gone, so that a long session does not grow. */
  readonly keepOnly: (songs: { has(song: Id): boolean }) => void;
}

/** Line-ups and log cuts remembered per song: today's, the next gigs', and room for a comparison. */
const READINGS_PER_SONG = 6;
/** Days remembered per reading: today and the gigs that share its line-up. */
const DAYS_PER_READING = 6;
/** Of those, what a reading with another line-up takes over: today and one night. */
const DAYS_BORROWED = 2;

interface KeptReading {
  readonly input: ScoreInput;
  readonly window: Window;
  readonly readings: Readings;
  /** Days of the reading that some of these were taken over from. */
  readonly borrowed: readonly KeptDay[];
  /** Most recently used first. */
  readonly days: KeptDay[];
}

interface KeptDay {
  readonly t: number;
  readonly statuses: SongFile["statuses"];
  readonly results: readonly OwnResult[];
  readonly score: SongScore;
}

/** One memory per board. Holds no clock and computes only when asked. */
export const createReadiness = (): Readiness => {
  const songs = new Map<Id, KeptReading[]>();
  const recall = (input: ScoreInput): KeptDay => {
    const { id } = input.file.song;
    const kept = songs.get(id) ?? [];
    songs.set(id, kept);
    return dayOf(readingOf(kept, input), input);
  };
  return {
    scoreSong: (input) => recall(input).score,
    keepOnly: (present) => {
      for (const id of songs.keys()) if (!present.has(id)) songs.delete(id);
    },
  };
};

const readingOf = (kept: KeptReading[], input: ScoreInput): KeptReading => {
  const cut = cutOf(input);
  const near = ({ window, input: before }: KeptReading): boolean =>
    window.from <= cut && cut < window.to && readsTheSame(before, input);
  return useFirst(
    kept,
    READINGS_PER_SONG,
    (one) => near(one) && sameEntries<Id | null>(one.input.lineUp, input.lineUp),
    () => keptFor(input, kept.find(near)),
  );
};

/**
 * Another line-up leaves the log as it is, so a unit's reading, and what it came to, stays while the same people sit
 * on all of its chairs. The band together is read anew: it asks about everybody. Units stand in canonical order.
 */
const keptFor = (input: ScoreInput, near: KeptReading | undefined): KeptReading => {
  const before = near?.input.lineUp;
  const stays = (chair: Id): boolean => (before?.get(chair) ?? null) === (input.lineUp.get(chair) ?? null);
  const readings = readSong(input, ({ chair, statusId, chairs }, i) => {
    const known = near?.readings.units[i];
    const same = known?.unit.chair === chair && known.unit.statusId === statusId;
    return same && chair !== null && chairs.every(stays) ? known : undefined;
  });
  const borrowed = near?.days.slice(0, DAYS_BORROWED) ?? [];
  return { input, window: windowOf(input), readings, borrowed, days: [] };
};

/** Every cut in from ≤ cut < to lets the same takes count. */
interface Window {
  readonly from: number;
  readonly to: number;
}

const windowOf = (input: ScoreInput): Window => {
  const cut = cutOf(input);
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  for (const { at } of input.file.takes) {
    if (at <= cut) from = Math.max(from, at);
    else to = Math.min(to, at);
  }
  return { from, to };
};

const dayOf = (kept: KeptReading, input: ScoreInput): KeptDay => {
  const { readings, days, borrowed } = kept;
  const i = days.findIndex((day) => day.t === input.t);
  const own = days[i];
  if (own !== undefined && own.statuses === input.file.statuses) return toFront(days, i, own);
  const before = own ?? borrowed.find((day) => day.t === input.t);
  const results = readings.units.map((reading, u) => {
    const marked = statusFor(input.file, reading.unit);
    const old = before?.results[u];
    // A unit that was taken over is the same object.
    const same =
      old?.unit === reading.unit &&
      marked === statusFor({ statuses: before?.statuses ?? new Map() }, reading.unit);
    return same ? old : ownScore(reading, marked, input);
  });
  // A tick on somebody else's row or on a card that counts for nothing leaves every unit as it was.
  const unchanged = own?.results.every((result, u) => result === results[u]);
  const score = own && unchanged ? own.score : sumUp(readings.plan, results, before?.score);
  const day = { t: input.t, statuses: input.file.statuses, results, score };
  if (i >= 0) days.splice(i, 1);
  days.unshift(day);
  days.length = Math.min(days.length, DAYS_PER_READING);
  return day;
};

/** Everything the readings depend on; statuses, the day and the line-up left out. */
const readsTheSame = (a: ScoreInput, b: ScoreInput): boolean =>
  a.settings === b.settings &&
  a.file.song === b.file.song &&
  sameItems(a.file.takes, b.file.takes) &&
  sameItems(a.file.cards, b.file.cards) &&
  sameItems(a.file.sections, b.file.sections) &&
  sameEntries(a.file.castings, b.file.castings) &&
  (a.chairs === b.chairs ||
    sameItems(
      a.chairs.map(({ id }) => id),
      b.chairs.map(({ id }) => id),
    ));

const sameItems = <T>(a: readonly T[], b: readonly T[]): boolean =>
  a === b || (a.length === b.length && a.every((item, i) => item === b[i]));

const sameEntries = <T>(a: ReadonlyMap<Id, T>, b: ReadonlyMap<Id, T>): boolean => {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const [key, value] of a) if (b.get(key) !== value || !b.has(key)) return false;
  return true;
};

/** The first match, moved to the front; else a new one in front, the oldest dropped. */
const useFirst = <T>(list: T[], most: number, matches: (item: T) => boolean, make: () => T): T => {
  const i = list.findIndex(matches);
  const found = list[i];
  if (found !== undefined) return toFront(list, i, found);
  const made = make();
  list.unshift(made);
  list.length = Math.min(list.length, most);
  return made;
};

const toFront = <T>(list: T[], i: number, item: T): T => {
  if (i > 0) {
    list.splice(i, 1);
    list.unshift(item);
  }
  return item;
};
