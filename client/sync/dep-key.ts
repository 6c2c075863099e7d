import type { Id } from "#shared/board/ids.ts";

/** Where a dep's device keeps its gig. */
export const depKey = (board: Id): string => `tightrow.dep.${board}`;

/** Forgets what was kept for a board. Never throws. */
export const forgetDepGig = (board: Id): void => {
  try {
    localStorage.removeItem(depKey(board));
  } catch {
    // Where storage is forbidden nothing was kept.
  }
};
