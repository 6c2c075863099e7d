/** Days away as screens show them, and where the private reason of one is kept. */
import type { Id } from "../board/ids.ts";
import type { Away } from "../board/rehearsal.ts";
import { addDays, type Day } from "../lib/calendar.ts";
import { dayWords } from "../lib/day-words.ts";

/** Longest reason, in characters. */
export const REASON_MAX = 500;

const START = "away-";

/**
 * The name of the private value that holds why somebody is away. Such names know small letters and figures only, ids tell
 * large from small, so an id stands there by the hexadecimal codes of its characters.
 */
export const reasonKey = (away: Id): string =>
  START + [...away].map((letter) => (letter.codePointAt(0) ?? 0).toString(16).padStart(2, "0")).join("");

/** Why somebody is away, by the name of the private value; values that are no reason are left out. */
export const reasonsIn = (
  values: readonly { readonly key: string; readonly value: unknown }[],
): ReadonlyMap<string, string> =>
  new Map(
    values.flatMap(({ key, value }) =>
      key.startsWith(START) && typeof value === "string" ? [[key, value] as const] : [],
    ),
  );

/** Days away that are not over, soonest first. */
export const awaysAhead = (aways: readonly Away[], today: Day): readonly Away[] =>
  aways.filter(({ to }) => to >= today);

/** What stays of somebody's days away when they are there on one of them: the days before it and those after. */
export const daysBeside = (
  { from, to }: Pick<Away, "from" | "to">,
  day: Day,
): readonly { readonly from: Day; readonly to: Day }[] =>
  [
    { from, to: addDays(day, -1) },
    { from: addDays(day, 1), to },
  ].filter((days) => days.from <= days.to);

/** `Wed 4 March`, or `Wed 4 March to Fri 6 March`. */
export const awayDays = ({ from, to }: Pick<Away, "from" | "to">, today: Day): string =>
  from === to
    ? dayWords(from, { weekday: true, today })
    : `${dayWords(from, { weekday: true, today })} to ${dayWords(to, { weekday: true, today })}`;
