/** Joins class names; parts that are false or absent fall away. */
export const classNames = (...parts: readonly (string | false | null | undefined)[]): string =>
  parts.filter(Boolean).join(" ");
