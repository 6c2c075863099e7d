/** What stands between the parts of a form, or between a name and its bars, where it ends one. */
const SEPARATORS = /[,;\s]+/g;
const LOOSE_END = /[\s·:×=(]+$/;

/** A section as a form is typed. */
export interface WrittenSection {
  readonly name: string;
  readonly bars: number;
  /** How often it is played in a row; absent = once. */
  readonly repeats?: number;
}

/**
 * A form in one line, as `parseForm` reads it back: `Intro 8, V1 16`. A name loses the commas and semicolons in it, which
 * would end it there; what is played twice in a row is written twice.
 */
export const formText = (sections: readonly WrittenSection[]): string =>
  sections
    .flatMap(({ name, bars, repeats = 1 }) => Array<string>(repeats).fill(`${plainName(name)} ${bars}`))
    .join(", ");

const plainName = (name: string): string =>
  name.replace(SEPARATORS, " ").trim().replace(LOOSE_END, "") || "Section";
