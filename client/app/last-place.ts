import { recall, remember } from "#client/pieces/device-memory.ts";

const key = (board: string): string => `place.${board}`;

/** Remembers where on a board this device was last: a path within it. */
export const keepPlace = (board: string, path: string): void => {
  if (path.startsWith("/") && path !== "/start") remember(key(board), path);
};

/** Where this device was last on a board; null = nowhere yet. */
export const lastPlace = (board: string): string | null => recall(key(board));
