/** Nobody who could be named. */
export const UNNAMED = "?";

const MARKS = /^\p{M}$/u;

/** The first `count` letters of a word with the marks that stand on them. */
const lettersOf = (word: string, count: number): string => {
  let out = "";
  let letters = 0;
  for (const character of word.normalize("NFC")) {
    if (!MARKS.test(character)) {
      if (letters === count) break;
      letters += 1;
    }
    out += character;
  }
  return out;
};

/** Two letters for a person: of the first and the last word of the name, or the first two of the only one. */
export const initialsOf = (name: string | undefined): string => {
  const words = (name ?? "").match(/[\p{L}\p{N}][\p{L}\p{N}\p{M}]*/gu) ?? [];
  const first = words[0];
  const last = words.at(-1);
  if (first === undefined || last === undefined) return UNNAMED;
  const initials = words.length === 1 ? lettersOf(first, 2) : lettersOf(first, 1) + lettersOf(last, 1);
  return initials.toUpperCase().slice(0, 8);
};
