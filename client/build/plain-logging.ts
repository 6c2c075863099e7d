/**
 * Stands in for lib0/logging in the built client. Yjs says four sentences with it; the original brings colours, a
 * console drawn in the page and a library of schemas, 3 kB as they travel.
 */

/* Marks that the original turns into colours and weights. */
export const BOLD = Symbol("bold");
export const UNBOLD = Symbol("unbold");
export const ORANGE = Symbol("orange");
export const RED = Symbol("red");

const withoutMarks = (parts: readonly unknown[]): readonly unknown[] =>
  parts.filter((part) => typeof part !== "symbol");

export const print = (...parts: readonly unknown[]): void => console.log(...withoutMarks(parts));
export const warn = (...parts: readonly unknown[]): void => console.warn(...withoutMarks(parts));
