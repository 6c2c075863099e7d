import type { Day } from "../lib/calendar.ts";
import type { Board } from "./board.ts";
import type { Id } from "./ids.ts";

/** Members who said that they cannot come on a day. */
export const awayOn = ({ aways, people }: Pick<Board, "aways" | "people">, day: Day): readonly Id[] => [
  ...new Set(
    aways.flatMap(({ person, from, to }) => (from <= day && day <= to && people.has(person) ? [person] : [])),
  ),
];
