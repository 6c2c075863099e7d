/** A score as it is written, measure by measure, before its repeats are played out. */

export interface WrittenNote {
  /** Quarter notes from the beginning of the measure. */
  readonly at: number;
  readonly length: number;
  readonly pitch: number;
  /** True where it only goes on from the note before. */
  readonly tied: boolean;
}

/** What one part writes into one measure. */
export interface PartMeasure {
  readonly notes: readonly WrittenNote[];
}

/** What stands over a measure, in whichever part it is written. */
export interface Measure {
  /** Quarter notes that are written; 0 = nothing is. */
  length: number;
  /** Set where the metre or key changes. */
  metre: { readonly beats: number; readonly unit: number; readonly said: string } | null;
  key: { readonly signature: number; readonly mode: "major" | "minor" } | null;
  tempos: { readonly at: number; readonly quarters: number }[];
  mark: string;
  repeatFrom: boolean;
  /** How often the stretch that ends here is played; 0 = it does not end here. */
  repeatTimes: number;
  /** Times round in which this measure is played; empty = always. */
  endings: readonly number[];
  /** `dacapo`, `dalsegno`, `segno`, `coda`, `tocoda`, `fine`: what is played next, or a place to go to. */
  jumps: Set<string>;
}

export const emptyMeasure = (): Measure => ({
  length: 0,
  metre: null,
  key: null,
  tempos: [],
  mark: "",
  repeatFrom: false,
  repeatTimes: 0,
  endings: [],
  jumps: new Set(),
});

export interface WrittenPart {
  name: string;
  program: number | null;
  percussion: boolean;
  readonly measures: PartMeasure[];
}

export interface WrittenScore {
  title: string;
  readonly measures: Measure[];
  readonly parts: WrittenPart[];
}
