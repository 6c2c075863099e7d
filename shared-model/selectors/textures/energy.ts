/** The energy of a song's sections and bars, and what happens at their joints, from the picture of who plays when. */
import { energyOf, type Joint, jointsOf, noveltyOf, type Texture } from "../../music/texture.ts";
import { levelAt, levelOf, type Picture } from "./picture.ts";

export interface Energy {
  /** Of each section, 0 to 1; null = somebody's part of it is not painted. */
  readonly sections: readonly (number | null)[];
  /** Of each bar of each section, mean of its passes. */
  readonly bars: readonly (readonly number[] | null)[];
  /** After each section but the last; null = one side is not known. */
  readonly joints: readonly (Joint | null)[];
  /** Where most changes within four bars; null = nothing does, or not all is painted. */
  readonly turn: { readonly section: number; readonly bar: number; readonly pass: number } | null;
  /** The whole song as numbers, and which chairs they are of; null = not all of it is painted. */
  readonly texture: Texture | null;
  /** Indexes of the parts that are painted anywhere; the others count for nothing. */
  readonly counted: readonly number[];
  /** Cells of counted parts that nobody painted. */
  readonly missing: number;
}

const known = (levels: readonly (number | null)[]): readonly number[] | null =>
  levels.length === 0 || levels.includes(null) ? null : (levels as readonly number[]);

const turnOf = (picture: Picture, counted: readonly number[], weights: readonly number[]): Energy["turn"] => {
  const places = picture.sections.flatMap(({ bars, passes }, section) =>
    Array.from({ length: bars * passes }, (_, i) => ({
      section,
      bar: (i % bars) + 1,
      pass: Math.floor(i / bars) + 1,
    })),
  );
  const levels = places.map(({ section, bar, pass }) =>
    counted.map((part) => {
      const cell = picture.parts[part]?.cells[section];
      return (cell && levelAt(cell, bar, pass)) ?? 0;
    }),
  );
  const novelty = noveltyOf(weights, levels);
  const most = Math.max(0, ...novelty);
  return most < 1e-9 ? null : (places[novelty.indexOf(most)] ?? null);
};

export const energyIn = (picture: Picture): Energy => {
  const { sections, parts } = picture;
  const counted = parts.flatMap(({ cells }, i) => (cells.some(({ from }) => from !== null) ? [i] : []));
  const weights = counted.map((part) => parts[part]?.weight ?? 1);
  const cellsOf = (section: number) => counted.flatMap((part) => parts[part]?.cells[section] ?? []);
  const levels = sections.map((section, s) => known(cellsOf(s).map((cell) => levelOf(cell, section))));
  const bars = sections.map(({ bars: count, passes }, s) =>
    levels[s] === null
      ? null
      : Array.from({ length: count }, (_, bar) => {
          const passing = Array.from({ length: passes }, (_, pass) =>
            energyOf(
              weights,
              cellsOf(s).map((cell) => levelAt(cell, bar + 1, pass + 1) ?? 0),
            ),
          );
          return passing.reduce((sum, energy) => sum + energy, 0) / passes;
        }),
  );
  const all =
    levels.includes(null) || levels.length === 0 ? null : (levels as readonly (readonly number[])[]);
  return {
    sections: levels.map((section) => (section === null ? null : energyOf(weights, section))),
    bars,
    joints: levels.slice(1).map((after, i) => {
      const before = levels[i];
      if (after === null || before === null || before === undefined) return null;
      return jointsOf({ weights, sections: [before, after] })[0] ?? null;
    }),
    turn: all === null ? null : turnOf(picture, counted, weights),
    texture: all === null ? null : { weights, sections: all },
    counted,
    missing: sections.reduce((n, _, s) => n + cellsOf(s).filter(({ from }) => from === null).length, 0),
  };
};
