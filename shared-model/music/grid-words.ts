/** Grids and shapes in words, for ears, paper and the history: `Drums on 1, 2 and, 4`. */
import { FRET_MOST, type Grid, type GridRow, type GridVoice, type Hit, type Shape } from "../board/grid.ts";
import { hitAt } from "../board/grid-reading.ts";
import type { Id } from "../board/ids.ts";
import { beatsPerBar, isCompound, type Metre, parseMetre } from "./metre.ts";

/**
 * What is counted between two beats, by how many steps a beat has. Common practice, no published source; teachers differ
 * in triplets and in sextuplets.
 */
const SYLLABLES: { readonly [perBeat: number]: readonly string[] } = {
  1: [],
  2: ["and"],
  3: ["trip", "let"],
  4: ["e", "and", "a"],
};
/** Where the beat is a dotted note, its thirds are quavers like any other. */
const COMPOUND: typeof SYLLABLES = { ...SYLLABLES, 3: ["and", "a"] };

const FOUR_FOUR: Metre = { groups: [4], unit: 4 };

/** A metre as a song has it; one that cannot be read counts as 4/4. */
const metreOf = (text: string): Metre => {
  const metre = parseMetre(text);
  return metre.ok ? metre.value : FOUR_FOUR;
};

/** Where the steps of a grid lie in the bar. */
export interface Counting {
  /** `1`, `2 and`, `4 a`; steps without a syllable of their own are numbered: `2 step 5`. */
  readonly nameOf: (step: number) => string;
  /** Bar of a step, from 1. */
  readonly barOf: (step: number) => number;
  readonly bars: number;
}

/** How the steps of a grid are counted. `metre` as the song has it, `4/4`. */
export const countingOf = ({ steps, perBeat }: Pick<Grid, "steps" | "perBeat">, metre: string): Counting => {
  const read = metreOf(metre);
  const stepsPerBar = Math.max(1, beatsPerBar(read)) * perBeat;
  const syllables = (isCompound(read) ? COMPOUND : SYLLABLES)[perBeat];
  return {
    nameOf: (step) => {
      const beat = Math.floor((step % stepsPerBar) / perBeat) + 1;
      const within = step % perBeat;
      if (within === 0) return String(beat);
      return `${beat} ${syllables?.[within - 1] ?? `step ${within + 1}`}`;
    },
    barOf: (step) => Math.floor(step / stepsPerBar) + 1,
    bars: Math.ceil(steps / stepsPerBar),
  };
};

export const HIT_WORDS: { readonly [H in Hit]: string } = {
  ".": "rest",
  x: "hit",
  X: "accent",
  o: "ghost",
  "-": "held",
};

/** A row's name before its chair's: `Kick`; empty where it is the chair's own. */
export const voiceName = (voice: GridVoice | undefined): string =>
  voice === undefined ? "" : voice[0]?.toUpperCase() + voice.slice(1);

/** What a row is called: `Bass`, `Kick`; with its chair where two chairs have that voice: `Kick (Drums)`. */
export const rowNames = ({ rows }: Pick<Grid, "rows">, nameOf: (chair: Id) => string): readonly string[] =>
  rows.map(({ chair, voice }) => {
    if (voice === undefined) return nameOf(chair);
    const once = rows.filter((row) => row.voice === voice).length === 1;
    return once ? voiceName(voice) : `${voiceName(voice)} (${nameOf(chair)})`;
  });

/** How each kind of hit begins its list. */
const LISTS: readonly (readonly [hit: Hit, head: string])[] = [
  ["x", "on"],
  ["X", "accents on"],
  ["o", "ghosts on"],
];

/** How many steps a note lasts, held ones counted, round the grid; 0 where none begins. */
export const lengthAt = (row: Pick<GridRow, "hits">, step: number): number => {
  if (!isStroke(hitAt(row, step))) return 0;
  const { length } = row.hits;
  let steps = 1;
  while (steps < length && row.hits[(step + steps) % length] === "-") steps += 1;
  return steps;
};

/** True for what begins a note. */
export const isStroke = (hit: string): boolean => hit === "x" || hit === "X" || hit === "o";

const rowWords = (row: GridRow, steps: number, counting: Counting): string => {
  const parts = LISTS.flatMap(([hit, head]) => {
    let bar = 0;
    const names: string[] = [];
    for (let step = 0; step < steps; step += 1) {
      if (hitAt(row, step) !== hit) continue;
      const here = counting.barOf(step);
      const lasts = lengthAt(row, step);
      const held = lasts > 1 ? ` held for ${lasts} steps` : "";
      names.push(
        `${counting.bars > 1 && here !== bar ? `bar ${here}: ` : ""}${counting.nameOf(step)}${held}`,
      );
      bar = here;
    }
    return names.length === 0 ? [] : [`${head} ${names.join(", ")}`];
  });
  return parts.length === 0 ? "rests" : parts.join("; ");
};

/**
 * A grid as one would read it out, one sentence a row: `Drums on 1, 3; accents on 2, 4. Bass on 1, 2 and.`
 * @param nameOf the chair's name
 * @param metre as the song has it
 */
export const gridWords = (grid: Grid, metre: string, nameOf: (chair: Id) => string): string => {
  const counting = countingOf(grid, metre);
  const names = rowNames(grid, nameOf);
  return grid.rows.map((row, i) => `${names[i]} ${rowWords(row, grid.steps, counting)}.`).join(" ");
};

/** A string as players number it: the highest is the first. */
const stringNumber = (shape: Shape, index: number): number => shape.frets.length - index;

const fretWords = (fret: number | null): string =>
  fret === null ? "not played" : fret === 0 ? "open" : `fret ${fret}`;

/**
 * A shape as one would read it out, lowest string first: `Capo 5. String 6 open, 5 fret 2 with finger 2, 4 …`. Frets count
 * from the capo.
 */
export const shapeWords = (shape: Shape): string => {
  const strings = shape.frets.map((fret, i) => {
    const finger = shape.fingers[i] ?? null;
    const number = stringNumber(shape, i);
    return `${i === 0 ? "String " : ""}${number} ${fretWords(fret)}${finger === null ? "" : ` with finger ${finger}`}`;
  });
  return `${shape.capo === 0 ? "" : `Capo ${shape.capo}, frets counted from it. `}${strings.join(", ")}.`;
};

/** The frets in one word, lowest string first, as bands write them to each other: `x32010`, `x-10-12-12-11-x`. */
export const fretsText = ({ frets }: Pick<Shape, "frets">): string =>
  frets
    .map((fret) => (fret === null ? "x" : String(fret)))
    .join(frets.some((fret) => fret !== null && fret > 9) ? "-" : "");

/**
 * Reads what `fretsText` writes; strings apart by spaces or hyphens, or one sign each. Null where a sign is no fret.
 */
export const readFrets = (text: string): readonly (number | null)[] | null => {
  const trimmed = text.trim();
  const signs = /[\s-]/.test(trimmed) ? trimmed.split(/[\s-]+/) : [...trimmed];
  const frets = signs.map((sign) =>
    /^x$/i.test(sign) ? null : /^\d{1,2}$/.test(sign) ? Number(sign) : Number.NaN,
  );
  return frets.some((fret) => fret !== null && !(fret <= FRET_MOST)) ? null : frets;
};
