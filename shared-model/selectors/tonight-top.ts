/** A singer's top for one evening, kept on their own device, and what can be done about it in words. */
import * as v from "valibot";
import type { Gig } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { lineUpFor } from "../board/line-up.ts";
import type { Day } from "../lib/calendar.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { formatKey, type Key, parseKey, showKey } from "../music/key.ts";
import { rangeOf } from "../music/key-fit/melody.ts";
import { overBy, type Remedy, remediesFor } from "../music/key-fit/tonight.ts";
import { noteName, parseNote } from "../music/note-name.ts";
import { semitonesBetween, transposeKey } from "../music/transpose.ts";
import { listed } from "../readiness/names.ts";
import { harmoniesTooLow } from "./harmony-low.ts";
import { keyNow, leads, melodyIn, paysIn } from "./key-fit.ts";
import { semitoneWords } from "./key-fit-words.ts";
import { orderOf } from "./running-order.ts";

const KEPT = v.object({
  day: v.string(),
  top: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(127)),
});

/** The top kept on a device, if it is of this day; any other day there is none. */
export const readTop = (text: string | null, day: Day): number | null => {
  if (text === null) return null;
  try {
    const kept = v.safeParse(KEPT, JSON.parse(text));
    return kept.success && kept.output.day === day ? kept.output.top : null;
  } catch {
    return null;
  }
};

export const keepTop = (top: number | null, day: Day): string =>
  top === null ? "" : JSON.stringify({ day, top });

/** Reads what was typed; empty = as always. */
export const readTopNote = (text: string): Result<number | null> =>
  text.trim() === "" ? ok(null) : parseNote(text);

/** One thing to do about a song tonight. */
export interface TonightRemedy {
  readonly of: Remedy["of"];
  /** One sentence. */
  readonly words: string;
  /** The key of the night it asks for, as it is stored; null = the key stays. */
  readonly key: string | null;
  /** Who pays for it and how; empty = nobody. */
  readonly pays: readonly string[];
}

export interface TonightSong {
  /** `The top note B4 lies 2 semitones above tonight's top, A4.` */
  readonly sentence: string;
  /** In the order of what they ask of the band; none where the song fits. */
  readonly remedies: readonly TonightRemedy[];
}

const keyOf = (text: string): Key | null => {
  const key = parseKey(text);
  return key.ok ? key.value : null;
};

const wordsOf = (remedy: Remedy, key: Key): Pick<TonightRemedy, "words" | "key"> => {
  if (remedy.of === "skip lift") return { words: `Leave out the lift: stay in ${showKey(key)}.`, key: null };
  if (remedy.of === "give the line away")
    return { words: "Let the crowd or a backing voice take the top line.", key: null };
  if (remedy.of === "swap") return { words: "Play another song instead.", key: null };
  const lower = transposeKey(key, -remedy.semitones);
  const lift = remedy.skipLift ? ", and leave out the lift" : "";
  return {
    words: `Play it ${semitoneWords(remedy.semitones)} lower, in ${showKey(lower)}${lift}.`,
    key: formatKey(lower),
  };
};

type TopBoard = Pick<Board, "band" | "chairs" | "people" | "songs">;

/** How one song stands against tonight's top, in the key of the gig where it has one of its own. */
export const tonightSong = (
  board: TopBoard,
  file: SongFile,
  gig: Gig | null,
  top: number,
): Result<TonightSong> => {
  const { song } = file;
  const night = gig?.songs.find((entry) => entry.song === song.id)?.key ?? null;
  const usual = keyNow(song);
  const key = night === null ? usual : keyOf(night);
  const melody = key === null ? null : melodyIn(song, key);
  if (usual === null || key === null || melody === null)
    return err("Write down the melody of the song first, and its key.");
  const lifted = keyOf(song.liftKey);
  const lift = lifted === null ? 0 : Math.max(0, semitonesBetween(usual, lifted));
  const asked = { melody, lift, lineCanBeGiven: true };
  const over = overBy(asked, top);
  const high = rangeOf(melody).high + lift;
  const at = `${noteName(high, key)}${lift > 0 ? ", after the lift," : ""}`;
  const mine = `tonight's top, ${noteName(top, key)}`;
  const lineUp = lineUpFor(board, file, gig);
  const paysFor = (remedy: Remedy): readonly string[] => {
    if (remedy.of !== "lower") return [];
    const there = transposeKey(key, -remedy.semitones);
    const scene = { board, file, lineUp, melody, lower: remedy.semitones, key: there };
    return [...paysIn(board, file, gig, there), ...harmoniesTooLow(scene)];
  };
  return ok({
    sentence:
      over <= 0
        ? `The top note ${at} lies ${over === 0 ? "at" : `${semitoneWords(over)} below`} ${mine}.`
        : `The top note ${at} lies ${semitoneWords(over)} above ${mine}.`,
    remedies: remediesFor(asked, top).map((remedy) => ({
      of: remedy.of,
      ...wordsOf(remedy, key),
      pays: paysFor(remedy),
    })),
  });
};

/** One song of a night that lies over tonight's top. */
export interface SongOverTop extends TonightSong {
  readonly song: Id;
  readonly title: string;
}

/** The songs of a night that this singer leads and that lie over tonight's top, in playing order. */
export const songsOverTop = (board: TopBoard, gig: Gig, singer: Id, top: number): readonly SongOverTop[] =>
  gig.songs.flatMap(({ song }) => {
    const file = board.songs.get(song);
    if (file === undefined || !leads(board, file, gig, singer)) return [];
    const read = tonightSong(board, file, gig, top);
    return read.ok && read.value.remedies.length > 0 ? [{ song, title: file.song.title, ...read.value }] : [];
  });

/** Songs over the top that follow one another in the running order, a sentence for each run of them. */
export const strainSentences = (gig: Gig, over: readonly SongOverTop[]): readonly string[] => {
  const titles = new Map(over.map(({ song, title }) => [song, title]));
  return orderOf(gig).flatMap((block) => {
    const runs: string[][] = [[]];
    for (const song of block) {
      const title = titles.get(song);
      if (title === undefined) runs.push([]);
      else runs.at(-1)?.push(title);
    }
    return runs.filter((run) => run.length > 1).map((run) => `${listed(run)} follow one another.`);
  });
};
