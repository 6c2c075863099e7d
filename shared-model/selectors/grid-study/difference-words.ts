/** What we play otherwise than the recording, as a player would say it: `2 is late by a sixteenth`. */
import type { Grid } from "../../board/grid.ts";
import type { Id } from "../../board/ids.ts";
import { type Counting, countingOf, HIT_WORDS, rowNames } from "../../music/grid-words.ts";
import {
  type GridDifference,
  gridDifference,
  type RowChange,
  type RowDifference,
} from "../../music/rhythm/grid-difference.ts";
import { stepWords } from "./step-words.ts";

export interface RowWords {
  readonly name: string;
  /** Without a full stop. Says so where the row is the same. */
  readonly words: string;
  readonly same: boolean;
}

const article = (word: string): string => `${/^[aeiou]/.test(word) ? "an" : "a"} ${word}`;

const changeWords = (change: RowChange, counting: Counting, long: (steps: number) => string): string => {
  const bar = counting.bars > 1 ? `bar ${counting.barOf(change.step)}: ` : "";
  const step = `${bar}${counting.nameOf(change.step)}`;
  switch (change.of) {
    case "moved":
      return `${step} is ${change.late > 0 ? "late" : "early"} by ${long(Math.abs(change.late))}`;
    case "missing":
      return `${step} is missing`;
    case "extra":
      return `${step} is extra`;
    case "stroke":
      return `${step} is ${article(HIT_WORDS[change.ours])}, on the recording ${article(HIT_WORDS[change.recorded])}`;
    case "length":
      return `${step} is ${change.longer > 0 ? "longer" : "shorter"} by ${long(Math.abs(change.longer))}`;
  }
};

/** By how many steps all notes of a row are late together; null where they are not, or there is one only. */
const allLate = ({ notes, changes }: RowDifference): number | null => {
  const moved = changes.flatMap((change) => (change.of === "moved" ? [change.late] : []));
  const [first] = moved;
  if (first === undefined || notes < 2 || moved.length < notes) return null;
  const alone = changes.some(({ of }) => of === "missing" || of === "extra");
  return !alone && moved.every((late) => late === first) ? first : null;
};

const rowWords = (
  row: RowDifference,
  say: (change: RowChange) => string,
  long: (steps: number) => string,
): string => {
  const late = allLate(row);
  if (late === null) return row.changes.map(say).join("; ");
  const rest = row.changes.filter(({ of }) => of !== "moved");
  return [`every note is ${late > 0 ? "late" : "early"} by ${long(Math.abs(late))}`, ...rest.map(say)].join(
    "; ",
  );
};

const sentencesOf = (
  difference: GridDifference,
  metre: string,
  names: readonly string[],
): readonly RowWords[] => {
  const counting = countingOf(difference, metre);
  const long = (steps: number): string => stepWords(steps, difference, metre);
  return difference.rows.map((row, i) => {
    const { on, changes } = row;
    return {
    name: names[i] ?? "",
    same: on === "both" && changes.length === 0,
    words:
      on === "ours" ? "not on the recording"
      : on === "recorded" ? "on the recording only"
      : changes.length === 0 ? "as on the recording"
      : rowWords(row, (change) => changeWords(change, counting, long), long),
    }; // biome-ignore format: one decision
  });
};

export const UNEQUAL =
  "The two grids last so many beats that neither fits into the other: give them the same bars to compare them.";

/**
 * A line for each row. Null where the two cannot be laid on each other, which `UNEQUAL` says.
 * @param nameOf the chair's name
 */
export const differenceWords = (
  recorded: Grid,
  ours: Grid,
  metre: string,
  nameOf: (chair: Id) => string,
): readonly RowWords[] | null => {
  const difference = gridDifference(recorded, ours);
  if (difference === null) return null;
  const rows = difference.rows.map(({ row }) => ({ ...row, hits: "" }));
  return sentencesOf(difference, metre, rowNames({ rows }, nameOf));
};
