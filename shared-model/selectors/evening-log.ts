/** What was played on one day, and whether a take about to be logged is one that another phone has logged already. */
import type { Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";
import { takeNumber } from "../commands/log-take.ts";
import type { Day } from "../lib/calendar.ts";
import { listed, type Names } from "../readiness/names.ts";
import type { TakeArgs } from "./take-draft.ts";
import { takeDay } from "./take-reading.ts";

export interface EveningTake {
  readonly take: Take;
  readonly file: SongFile;
}

export interface Evening {
  readonly day: Day;
  readonly gigs: readonly Gig[];
  readonly timeZone: string;
  /** Whose device this is: their own solo work is listed, others' is not. */
  readonly member: Id | null;
}

/** The takes of one day over all songs, newest first. */
export const eveningLog = (
  songs: Iterable<SongFile>,
  { day, gigs, timeZone, member }: Evening,
): readonly EveningTake[] => {
  const found: EveningTake[] = [];
  for (const file of songs)
    for (const take of file.takes) {
      if (take.kind === "solo" && !take.seats.some((seat) => seat.member === member)) continue;
      if (takeDay(take, { gigs, timeZone }) === day) found.push({ take, file });
    }
  return found.sort((a, b) => b.take.at - a.take.at || (a.take.id < b.take.id ? 1 : -1));
};

/** The take of another device that these arguments would join; null = they start a take of their own. */
export const joinedTake = (
  file: SongFile,
  { occasion, at, kind, scope }: Pick<TakeArgs, "occasion" | "at" | "kind" | "scope">,
  writer: Id,
): Take | null => {
  const no = takeNumber(file, occasion, at, writer);
  const slot = file.takes.filter((take) => take.occasion === occasion && take.no === no);
  const twin = slot.find((take) => take.kind === kind && take.scope.of === scope.of);
  return twin?.writers.includes(writer) ? null : (twin ?? null);
};

const phones = (by: readonly Id[], names: Names): string =>
  by.length === 0 ? "Another device" : `${listed(by.map((id) => `${names.member(id)}'s`))} phone`;

/** `Lucía Borrasco's phone logged this take: clean. Yours joins it.` */
export const joinSentence = ({ by = [], feel }: Take, names: Names): string =>
  `${phones(by, names)} logged this take: ${feel}. Yours joins it.`;

/** `logged here`, `logged by Lucía Borrasco`, `logged by Lucía Borrasco and on this device`. */
export const loggedBy = (take: Take, author: { writer: Id; member: Id | null }, names: Names): string => {
  const here = take.writers.includes(author.writer);
  const others = (take.by ?? []).filter((id) => id !== author.member).map(names.member);
  if (others.length > 0) return `logged by ${listed(here ? [...others, "on this device"] : others)}`;
  if (here) return take.writers.length > 1 ? "logged here and on another device" : "logged here";
  return author.member !== null && take.by?.includes(author.member)
    ? "logged on another device of yours"
    : "logged on another device";
};
