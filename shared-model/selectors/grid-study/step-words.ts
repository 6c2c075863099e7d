/** How long some steps of a grid are, as a note value. */
import type { Grid } from "../../board/grid.ts";
import { isCompound, type Metre, parseMetre } from "../../music/metre.ts";

const FOUR_FOUR: Metre = { groups: [4], unit: 4 };

/** Note values by their share of a whole note, in ninety-sixths. */
const VALUES: { readonly [ninetySixths: number]: string } = {
  96: "a whole note",
  72: "a dotted half",
  48: "a half",
  36: "a dotted quarter",
  24: "a quarter",
  18: "a dotted eighth",
  16: "a quarter triplet",
  12: "an eighth",
  9: "a dotted sixteenth",
  8: "an eighth triplet",
  6: "a sixteenth",
  4: "a sixteenth triplet",
  3: "a thirty-second",
};

/** `a sixteenth`, `a dotted eighth`; `5 steps` where no one note is that long. */
export const stepWords = (steps: number, { perBeat }: Pick<Grid, "perBeat">, metre: string): string => {
  const read = parseMetre(metre);
  const { unit } = read.ok ? read.value : FOUR_FOUR;
  const beat = (read.ok && isCompound(read.value) ? 3 : 1) * (96 / unit);
  return VALUES[(beat * steps) / perBeat] ?? (steps === 1 ? "a step" : `${steps} steps`);
};
