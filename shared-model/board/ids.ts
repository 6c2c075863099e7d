/** An identifier minted by a device or derived from a command. Never contains `/`, which separates key segments. */
export type Id = string;

const PART_PREFIX = "part:";

/** Longest identifier the reader accepts, in characters; longer ones are reported as an issue. */
export const ID_MAX = 200;

/** True for a string usable as one segment of a document key. */
export const isId = (value: unknown): value is Id =>
  typeof value === "string" && value.length > 0 && value.length <= ID_MAX && !value.includes("/");

/** The id of the implicit card "the part itself" of one song × chair. */
export const partCardId = (songId: Id, chairId: Id): Id => `${PART_PREFIX}${songId}:${chairId}`;

/** True when the id names an implicit part card rather than a written detail. */
export const isPartCardId = (id: Id): boolean => id.startsWith(PART_PREFIX);
