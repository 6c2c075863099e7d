const DIACRITICS = /[\u0300-\u036f]/g;

/**
 * The text as a person would compare it: case, accents, typographic quotes, dashes and runs of white space
 * make no difference. Two texts are "the same name" exactly when their folds are equal.
 * Normalisation: Unicode Standard Annex 15, form KD to take letters and accents apart, form C afterwards.
 */
export const foldText = (text: string): string =>
  PLAIN.test(text) ? text.toLowerCase().replace(/\s+/g, " ").trim() : foldFully(text);

/** Printable ASCII has no accents and no other forms. */
const PLAIN = /^[ -~]*$/;

const foldFully = (text: string): string =>
  text
    .normalize("NFKD")
    .toLowerCase()
    .normalize("NFKD")
    .replace(DIACRITICS, "")
    // A final sigma depends on what follows it, and a name must fold alike wherever it stands.
    .replace(/ς/g, "σ")
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/[\u2018\u2019\u201b\u02bc]/g, "'")
    .replace(/[\u201c-\u201f]/g, '"')
    .replace(/\s+/g, " ")
    .trim()
    .normalize("NFC");
