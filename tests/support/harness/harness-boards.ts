/** Boards that a page of the harness can be opened on. */
export const BOARDS = ["demo", "many", "empty"] as const;
export type HarnessBoard = (typeof BOARDS)[number];

/** Where the clock of the harness stands: a Thursday noon; the demo's next gig is nine days ahead. */
export const HARNESS_NOW = Date.UTC(2026, 2, 5, 12);
