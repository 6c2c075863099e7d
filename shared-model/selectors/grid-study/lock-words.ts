/** How the parts of a grid lock with the kick, in words: where they meet, where one plays alone, what pushes. */
import type { Grid, GridRow } from "../../board/grid.ts";
import type { Id } from "../../board/ids.ts";
import { type Counting, countingOf, rowNames } from "../../music/grid-words.ts";
import { beatsPerBar, parseMetre } from "../../music/metre.ts";
import { kickOf, partsOf, patternOf } from "../../music/rhythm/grid-rows.ts";
import { interlock, type Push, pushes } from "../../music/rhythm/interlock.ts";
import type { Pattern } from "../../music/rhythm/pattern.ts";

const stepsIn = (steps: readonly number[], counting: Counting): string =>
  steps
    .map((step, i) => {
      const bar = counting.barOf(step);
      const named = counting.bars > 1 && (i === 0 || counting.barOf(steps[i - 1] ?? 0) !== bar);
      return `${named ? `bar ${bar}: ` : ""}${counting.nameOf(step)}`;
    })
    .join(", ");

const rowWords = (row: GridRow, kick: Pattern | null, grid: Grid, metre: string): string => {
  const counting = countingOf(grid, metre);
  const part = patternOf(row);
  if (part.onsets.length === 0) return "rests";
  const met = kick === null ? null : interlock(kick, part);
  const read = parseMetre(metre);
  const beats = read.ok ? beatsPerBar(read.value) : 4;
  const pushWords = ({ step, beat, shared }: Push): string =>
    `${stepsIn([step], counting)} pushes into ${((beat - 1) % beats) + 1}${kick === null ? "" : shared ? ", the kick with it" : ", the kick not"}`;
  return [
    ...(met === null
      ? []
      : [
          met.both.length === 0 ? "never with the kick" : `with the kick on ${stepsIn(met.both, counting)}`,
          ...(met.partAlone.length === 0 ? [] : [`alone on ${stepsIn(met.partAlone, counting)}`]),
          ...(met.kickAlone.length === 0 ? [] : [`the kick alone on ${stepsIn(met.kickAlone, counting)}`]),
        ]),
    ...pushes(part, kick ?? { steps: grid.steps, onsets: [] }, grid.perBeat).map(pushWords),
  ].join("; ");
};

/** A line for each part that has something to say; none where there is neither a kick nor a push. */
export const lockWords = (
  grid: Grid,
  metre: string,
  nameOf: (chair: Id) => string,
): readonly { readonly name: string; readonly words: string }[] => {
  const kick = kickOf(grid);
  const names = rowNames(grid, nameOf);
  return partsOf(grid).flatMap((row) => {
    const words = rowWords(row, kick === null ? null : patternOf(kick), grid, metre);
    return words === "" || words === "rests" ? [] : [{ name: names[grid.rows.indexOf(row)] ?? "", words }];
  });
};
