import type { Section } from "../board/song.ts";

/** What stands between the parts of a form, or between a name and its bars, where it ends one. */
const SEPARATORS = /[,;\s]+/g;
const LOOSE_END = /[\s·:×=(]+$/;

/** A section as a form is typed. */
export type WrittenSection = Pick<Section, "name" | "bars" | "repeats">;

/**
 * A form in one line, as `parseForm` reads it back: `Intro 8, V1 16`. A name loses the commas and semicolons in it, which
 * would end it there; what is played twice in a row is written twice.
 */
export const formText = (sections: readonly WrittenSection[]): string =>
  sections
    .flatMap(({ name, bars, repeats }) => Array<string>(repeats).fill(`${plainName(name)} ${bars}`))
    .join(", ");

const plainName = (name: string): string =>
  name.replace(SEPARATORS, " ").trim().replace(LOOSE_END, "") || "Section";
