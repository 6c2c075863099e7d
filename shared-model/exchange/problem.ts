/** What a person should know about one spot of a pasted list. Nothing else in the list is affected. */
export interface Problem {
  readonly kind: ProblemKind;
  /** Number of the line in the text, from 1. */
  readonly line: number;
  /** The column concerned, in the list's own words; null = the line as a whole. */
  readonly column: string | null;
  /** Where, what is wrong and what to do, in words for people. */
  readonly message: string;
}

export type ProblemKind =
  | "empty"
  | "title"
  | "name"
  | "key"
  | "tempo"
  | "length"
  | "further"
  | "quote"
  | "characters"
  | "columns"
  | "ignored"
  | "duplicate"
  | "too many";

/** Builds the message with its place in front. */
export const problemAt = (kind: ProblemKind, line: number, column: string | null, what: string): Problem => ({
  kind,
  line,
  column,
  message: column === null ? `Line ${line}: ${what}` : `Line ${line}, ${column}: ${what}`,
});

/** The beginning of a text, short enough for a message. */
export const excerpt = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);
