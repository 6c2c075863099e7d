/**
 * Which songs the board shows, and in which order.
 * Governing rule, worst first: what is not ready before what is; among those, what the gig needs before what it
 * does not; then the lower score on the night, in the whole points the screen shows; then more expected slips on
 * musts; then the title. Every order is total, so that two devices show the same one.
 */
import { foldText } from "../lib/fold-text.ts";
import { DAY } from "../readiness/decay.ts";
import type { BoardChoices, Filter, Sort } from "./board-choices.ts";
import type { BoardRow } from "./board-row.ts";
import { pointsOf } from "./points.ts";

/** Six weeks untouched call for a run (common practice, no published source). */
export const STALE_DAYS = 42;

type Compare = (a: BoardRow, b: BoardRow) => number;

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const byTitle: Compare = (a, b) => byText(foldText(a.title), foldText(b.title)) || byText(a.song, b.song);
const byRepertoire: Compare = (a, b) => byText(a.order, b.order) || byText(a.song, b.song);
const byRunningOrder: Compare = (a, b) =>
  (a.place ?? Number.MAX_SAFE_INTEGER) - (b.place ?? Number.MAX_SAFE_INTEGER) || byRepertoire(a, b);

/** 0 = called for the gig and not ready, 1 = not called and not ready, 2 and 3 the same for what is ready. */
const urgency = (row: BoardRow): number => (row.ready ? 2 : 0) + (row.place === null ? 1 : 0);

/** The board's own order; see the rule above. */
export const worstFirst: Compare = (a, b) =>
  urgency(a) - urgency(b) || pointsOf(a.night) - pointsOf(b.night) || b.trouble - a.trouble || byTitle(a, b);

const COMPARE: { readonly [S in Sort]: Compare } = {
  worst: worstFirst,
  title: byTitle,
  repertoire: byRepertoire,
  running: byRunningOrder,
  stale: (a, b) => a.touched - b.touched || byTitle(a, b),
};

/** True when nobody has touched the song for six weeks before `now` (ms). */
export const isStale = (row: Pick<BoardRow, "touched">, now: number): boolean =>
  now - row.touched > STALE_DAYS * DAY;

const PASSES: { readonly [F in Filter]: (row: BoardRow, now: number) => boolean } = {
  gig: ({ place }) => place !== null,
  "not-ready": ({ ready }) => !ready,
  mine: ({ mine }) => mine,
  stale: isStale,
  "no-ending": ({ noEnding }) => noEnding,
};

/** A resting song that is called for the gig is at work again. */
const stagePasses = ({ stage, place }: BoardRow, choice: BoardChoices["stage"]): boolean => {
  if (choice === "all") return true;
  return choice === "working" ? stage !== "resting" || place !== null : stage === choice;
};

/** Every word of the search is somewhere in the title or the style. */
const matches = (row: BoardRow, words: readonly string[]): boolean => {
  const text = foldText(`${row.title} ${row.style}`);
  return words.every((word) => text.includes(word));
};

/** The rows to show, in order. `now` is a moment in ms. */
export const arrangeRows = (
  rows: readonly BoardRow[],
  choices: BoardChoices,
  now: number,
): readonly BoardRow[] => {
  const words = foldText(choices.search).split(" ").filter(Boolean);
  const filters = [...choices.filters];
  return rows
    .filter(
      (row) =>
        stagePasses(row, choices.stage) &&
        filters.every((filter) => PASSES[filter](row, now)) &&
        (words.length === 0 || matches(row, words)),
    )
    .sort(COMPARE[choices.sort]);
};

/** What happened to the order since the rows were laid out. */
export interface OrderNews {
  /** The rows shown would now stand in another order, or some would not be shown. */
  readonly moved: boolean;
  /** Songs that would now be shown and are not yet. */
  readonly fresh: number;
}

/** Compares the rows as laid out with the rows as they would be now. */
export const orderNews = (shown: readonly string[], now: readonly string[]): OrderNews => {
  const known = new Set(shown);
  const kept = now.filter((song) => known.has(song));
  return {
    moved: kept.length !== shown.length || kept.some((song, i) => song !== shown[i]),
    fresh: now.length - kept.length,
  };
};
