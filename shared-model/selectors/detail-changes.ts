/** Who last said what about a detail: one entry per person, latest first. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { isLater, LEVEL_WORDS, type Level } from "../board/status.ts";
import { type Day, dayOf } from "../lib/calendar.ts";
import { dayWords } from "../lib/day-words.ts";
import type { Names } from "../readiness/names.ts";

/** The last change of one person's status on one detail. */
export interface StatusChange {
  readonly member: Id;
  readonly from: Level;
  readonly to: Level;
  readonly at: number;
  /** The device it was made on. */
  readonly writer: Id;
}

/** Latest first; people of earlier line-ups and deps included. `statusId` is a card id or a part card id. */
export const changesOf = (file: Pick<SongFile, "statuses">, statusId: Id): readonly StatusChange[] =>
  [...(file.statuses.get(statusId) ?? [])]
    .map(([member, { from, level, at, writer }]) => ({ member, from, to: level, at, writer }))
    .sort((a, b) => (isLater(a, b) ? -1 : 1));

export interface ChangeWords {
  readonly names: Names;
  /** The band's time zone. */
  readonly timeZone: string;
  readonly today: Day;
  /** This device. */
  readonly writer: Id;
}

/** A change without its person: `practised → locked in, 4 March`; says so where it was made on this device. */
export const changeWords = (
  { from, to, at, writer: device }: StatusChange,
  { timeZone, today, writer }: Omit<ChangeWords, "names">,
): string => {
  const step = from === to ? `${LEVEL_WORDS[to]}, said again` : `${LEVEL_WORDS[from]} → ${LEVEL_WORDS[to]}`;
  return `${step}, ${dayWords(dayOf(at, timeZone), { today })}${device === writer ? ", on this device" : ""}`;
};

/**
 * A change with its person: `Anneli Kuusvirre: noticed → practised, 4 March, on another device`. What the board
 * knows is the device; whose hand it was it does not know, and does not say.
 */
export const changeSentence = (change: StatusChange, words: ChangeWords): string => {
  const elsewhere = change.writer === words.writer ? "" : ", on another device";
  return `${words.names.member(change.member)}: ${changeWords(change, words)}${elsewhere}`;
};
