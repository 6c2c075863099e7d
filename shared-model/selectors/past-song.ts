/** One song as it stood at an earlier moment, as lines of text: nothing here is worked out, marks are as they were made. */
import type { Board, SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import { castingOf } from "../board/line-up.ts";
import { LEVEL_WORDS } from "../board/status.ts";
import { formatWhere } from "../board/where.ts";
import { dayWords } from "../lib/day-words.ts";
import { namesOf } from "../readiness/names.ts";
import { SONG_ENTRY, SONG_ENTRY_NAMES } from "./song-entries.ts";
import { readTake } from "./take-reading.ts";

export interface PastDetail {
  readonly id: string;
  /** `Ch1, bar 4 · must · Drums`. */
  readonly about: string;
  readonly text: string;
  /** `Lucía Borrasco: practised`, one per player who had said something. */
  readonly marks: readonly string[];
}

export interface PastSong {
  /** What was settled, as label and value. */
  readonly facts: readonly (readonly [label: string, value: string])[];
  /** `Verse 8 · Chorus 16`; empty where it was not written. */
  readonly form: string;
  /** `Drums: Lucía Borrasco`, `Keys: tacet`, in column order. */
  readonly cast: readonly string[];
  readonly details: readonly PastDetail[];
  /** The takes there were, latest first: `4 March, run: clean`. */
  readonly takes: readonly string[];
}

const detailOf = (card: Card, file: SongFile, board: Board): PastDetail => {
  const names = namesOf(board);
  const marks = [...(file.statuses.get(card.id) ?? [])].map(
    ([member, { level }]) => `${names.member(member)}: ${LEVEL_WORDS[level]}`,
  );
  const chairs = card.chairs.length === 0 ? "not placed yet" : card.chairs.map(names.chair).join(", ");
  return {
    id: card.id,
    about: [formatWhere(card.where, file.sections), card.weight, chairs].join(" · "),
    text: card.text,
    marks,
  };
};

/** Reads one song of an earlier board. */
export const pastSong = (file: SongFile, board: Board): PastSong => {
  const names = namesOf(board);
  const { chairs, gigs, band } = board;
  return {
    facts: SONG_ENTRY_NAMES.map(
      (name) => [SONG_ENTRY[name].label, SONG_ENTRY[name].show(file.song)] as const,
    ).filter(([, value]) => value !== ""),
    form: file.sections.map(({ name, bars }) => `${name} ${bars}`).join(" · "),
    cast: chairs.map(({ id, name, holder }) => {
      if (!castingOf(file, id).plays) return `${name}: tacet`;
      const player = castingOf(file, id).holder ?? holder;
      return `${name}: ${player === null ? "nobody" : names.member(player)}`;
    }),
    details: file.cards.map((card) => detailOf(card, file, board)),
    takes: [...file.takes].reverse().map((take) => {
      const { day, kind, feel } = readTake(take, { file, chairs, gigs, names, timeZone: band.timeZone });
      return `${dayWords(day)}, ${kind}: ${feel}`;
    }),
  };
};
