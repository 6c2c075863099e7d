import type { Id } from "#shared/board/ids.ts";

/** The database of what members know of a board. */
export const knownName = (board: Id): string => `tightrow.known.${board}`;
