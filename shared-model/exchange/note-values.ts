/**
 * A bar of equal steps in written note values. Governing rule: every value is one that notation has (a plain or dotted
 * note, in a tuplet where the steps divide the beat otherwise), and the values of a bar fill it exactly.
 */
import { isCompound, type Metre } from "../music/metre.ts";

/** A stretch of a bar, in steps: something sounds, or nothing does. */
export interface Span<T> {
  readonly start: number;
  readonly steps: number;
  /** Null = silence. */
  readonly what: T | null;
}

/** So many of the steps of a beat in the time of so many plain ones. */
export interface Tuplet {
  readonly actual: number;
  readonly normal: number;
  /** Part of a semibreve that each of them is written as: 8 = quavers. */
  readonly written: number;
}

/** One written note or rest. */
export interface Value<T> extends Span<T> {
  /** Part of a semibreve it is written as: 1 = semibreve, 4 = crotchet. */
  readonly written: number;
  readonly dotted: boolean;
  /** Null outside tuplets. */
  readonly tuplet: Tuplet | null;
  readonly opensTuplet: boolean;
  readonly closesTuplet: boolean;
  /** True where it belongs to the value before it, and to the one after it. */
  readonly continues: boolean;
  readonly goesOn: boolean;
}

/** How the steps of a beat are written. */
export interface Division {
  readonly perBeat: number;
  /** Part of a semibreve one step is written as. */
  readonly step: number;
  readonly tuplet: Tuplet | null;
}

const powerBelow = (n: number): number => 2 ** Math.floor(Math.log2(n));

/**
 * How `perBeat` steps of a beat are written: 3 of a crotchet as quavers in triplets, 4 as semiquavers, 2 of a dotted
 * crotchet as quavers in duplets.
 */
export const divisionOf = (metre: Metre, perBeat: number): Division => {
  const parts = isCompound(metre) ? 3 : 1;
  const normal = parts * powerBelow(Math.max(1, perBeat / parts));
  const step = (metre.unit * normal) / parts;
  return { perBeat, step, tuplet: normal === perBeat ? null : { actual: perBeat, normal, written: step } };
};

/** The written values of one bar. `spans` follow one another from step 0 and fill the bar. */
export const valuesOf = <T>(
  metre: Metre,
  perBeat: number,
  spans: readonly Span<T>[],
): readonly Value<T>[] => {
  const division = divisionOf(metre, perBeat);
  return spans.flatMap((span) => {
    const values: Value<T>[] = [];
    const end = span.start + span.steps;
    for (let at = span.start; at < end; ) {
      const value = firstValue(metre, division, at, end);
      const goesOn = at + value.steps < end;
      values.push({ ...value, start: at, what: span.what, continues: at > span.start, goesOn });
      at += value.steps;
    }
    return values;
  });
};

type Written = Pick<Value<never>, "steps" | "written" | "dotted" | "tuplet" | "opensTuplet" | "closesTuplet">;

/** The longest value that a stretch can begin with: of whole beats from a beat on, else within its beat. */
const firstValue = (metre: Metre, division: Division, at: number, end: number): Written => {
  const { perBeat, step, tuplet } = division;
  const within = at % perBeat;
  if (within === 0 && end - at >= perBeat) {
    const { beats, written, dotted } = beatValue(metre, Math.floor((end - at) / perBeat));
    const plain = { tuplet: null, opensTuplet: false, closesTuplet: false };
    return { steps: beats * perBeat, written, dotted, ...plain };
  }
  const most = Math.min(end - at, perBeat - within);
  const plain = powerBelow(most);
  const dotted = plain * 1.5 <= most;
  const steps = dotted ? plain * 1.5 : plain;
  return {
    steps,
    written: step / plain,
    dotted,
    tuplet,
    opensTuplet: tuplet !== null && within === 0,
    closesTuplet: tuplet !== null && within + steps === perBeat,
  };
};

/** The longest note of at most so many counted beats, none longer than a dotted semibreve. */
const beatValue = (
  metre: Metre,
  most: number,
): { readonly beats: number; readonly written: number; readonly dotted: boolean } => {
  const compound = isCompound(metre);
  // A dotted beat is written as the plain note two units long, with a dot.
  const beat = compound ? metre.unit / 2 : metre.unit;
  const plain = Math.min(powerBelow(most), beat);
  const dotted = !compound && plain * 1.5 <= most && plain > 1;
  return { beats: dotted ? plain * 1.5 : plain, written: beat / plain, dotted: compound || dotted };
};
