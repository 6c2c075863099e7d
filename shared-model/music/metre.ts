import { err, ok, type Result } from "../lib/result.ts";

export interface Metre {
  /** Units in each group of a bar: `[4]` for 4/4, `[3, 2, 2]` for 3+2+2/8. */
  readonly groups: readonly number[];
  /** Note value counted below the line: 4 = crotchet, 8 = quaver. */
  readonly unit: number;
}

const PATTERN = /^(\d{1,2}(?:\s*\+\s*\d{1,2})*)\s*\/\s*(1|2|4|8|16|32)$/;

/** Reads a metre such as `4/4`, `6/8`, `3+2+2/8`. */
export const parseMetre = (text: string): Result<Metre> => {
  const match = PATTERN.exec(text.trim());
  const groups = match?.[1]?.split("+").map(Number) ?? [];
  if (!match || groups.some((count) => count < 1)) {
    return err(`"${text.trim().slice(0, 20)}" is not a metre. Write it as 4/4, 3/4, 6/8 or 3+2+2/8.`);
  }
  return ok({ groups, unit: Number(match[2]) });
};

export const formatMetre = ({ groups, unit }: Metre): string => `${groups.join("+")}/${unit}`;

/**
 * Beats counted in one bar. In compound metres (6/8, 9/8, 12/8, and their sixteenths) the counted beat is the
 * dotted note, three units long; everywhere else it is the unit. 6/4 is counted in six: common practice in bands.
 */
export const beatsPerBar = (metre: Metre): number => unitsPerBar(metre) / (isCompound(metre) ? 3 : 1);

/** True where the counted beat is a dotted note. */
export const isCompound = (metre: Metre): boolean => {
  const units = unitsPerBar(metre);
  const inThrees = metre.groups.length === 1 || metre.groups.every((count) => count === 3);
  return metre.unit >= 8 && units > 3 && units % 3 === 0 && inThrees;
};

const unitsPerBar = ({ groups }: Metre): number => groups.reduce((sum, count) => sum + count, 0);
