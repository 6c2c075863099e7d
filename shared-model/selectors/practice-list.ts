/**
 * What one player practises at home: which details, in how many minutes.
 * Governing rule: by what a drill adds on the night, times how long it has lain.
 */
import type { SongFile } from "../board/board.ts";
import { type Card, isShared } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Settings } from "../board/settings.ts";
import type { Take } from "../board/take.ts";
import { type Day, dayOf, daysBetween } from "../lib/calendar.ts";
import { ret } from "../readiness/decay.ts";
import { listed, type Names } from "../readiness/names.ts";
import { coversCard } from "../readiness/scope.ts";
import { sinceOf } from "../readiness/since.ts";
import type { DetailLine } from "./part-view.ts";
import type { Worth } from "./worth-doing.ts";

/** More than this a day is tiring, and gains little: common practice, no published source. Minutes. */
export const DAY_MOST = 30;
/** A detail wants ten to fifteen minutes over two days, so half of it in one sitting: common practice. Minutes. */
const DETAIL_MOST = 7.5;
/** Hands want a break after so many minutes of practice: common practice. */
export const BREAK_AFTER = 25;

/** How many details go into the minutes: each gets five to seven and a half. */
export const detailsIn = (minutes: number): number =>
  Math.max(1, Math.ceil(Math.min(minutes, DAY_MOST) / DETAIL_MOST));

/** Occasion of one player's work alone on a day. */
export const soloOccasion = (member: Id, day: Day): string => `s:${member}:${day}`;

/** When the player was last through a detail as it stands now. */
export interface LastPlayed {
  /** Whole days since they last played it with anybody; null = never. */
  readonly days: number | null;
  /** Days on which they practised it alone. */
  readonly alone: number;
}

/** Reads from the log when a player was last through a detail. `today` is the band's day. */
export const lastPlayed = (
  file: SongFile,
  card: Card,
  member: Id,
  { today, timeZone }: { readonly today: Day; readonly timeZone: string },
): LastPlayed => {
  const since = sinceOf(file, card);
  const sat = (take: Take): boolean =>
    take.at >= since &&
    coversCard(take.scope, file, card) &&
    take.seats.some((seat) => seat.member === member && card.chairs.includes(seat.chair));
  const takes = file.takes.filter(sat);
  const days = takes.map((take) => Math.max(0, daysBetween(dayOf(take.at, timeZone), today)));
  const alone = new Set(takes.filter(({ kind }) => kind === "solo").map((take) => take.occasion));
  return { days: days.length === 0 ? null : Math.min(...days), alone: alone.size };
};

/**
 * How much a detail wants to be taken up again, 0 to 1: what has been forgotten by the band's own curve. 0 on the day
 * it was played, 1 if never; and 1 for its second day, while the first is at most a week old.
 */
export const staleness = (
  { days, alone }: LastPlayed,
  settings: Pick<Settings, "H0" | "d" | "g">,
): number => {
  if (days === null) return 1;
  if (alone === 1 && days > 0 && days <= settings.g) return 1;
  return 1 - ret(days / settings.H0, settings.d);
};

/** Why a detail is on the list, in a few words. */
export const lastPlayedWords = ({ days, alone }: LastPlayed): string => {
  if (days === null) return "not played yet";
  if (days === 0) return "played today";
  if (days === 1) return alone === 1 ? "for the second day" : "played yesterday";
  return `played ${days} days ago${alone === 1 && days <= 7 ? ", for the second day" : ""}`;
};

/**
 * True for what somebody can do alone: a detail shared with others stays practised until the band has played it, so
 * it is worth their time alone only up to there, or after a slip.
 */
export const canPractise = ({ card, standings: [mine] }: DetailLine): boolean =>
  mine !== undefined &&
  mine.member !== null &&
  !mine.waiting &&
  (!isShared(card) || mine.level < 2 || mine.slipped);

export interface PracticeWorth extends Worth {
  /** 0 to 1. */
  readonly stale: number;
}

/** Best first: value times staleness, then musts; what gains nothing or was played today is left out. Total order. */
export const byValueAndAge = (worths: readonly PracticeWorth[]): readonly PracticeWorth[] =>
  worths
    .filter(({ difference, stale }) => difference * stale > 0)
    .sort(
      (a, b) =>
        b.difference * b.stale - a.difference * a.stale ||
        Number(b.card.weight === "must") - Number(a.card.weight === "must") ||
        (a.card.id < b.card.id ? -1 : 1),
    );

/** Says who else a shared detail needs; null for one's own. */
export const partnersSentence = ({ card, standings }: DetailLine, names: Names): string | null => {
  if (!isShared(card)) return null;
  const partners = standings.slice(1).map(({ chair }) => names.chair(chair));
  return partners.length === 0
    ? null
    : `Needs ${listed(partners)} too: alone it stays practised until you have played it together.`;
};
