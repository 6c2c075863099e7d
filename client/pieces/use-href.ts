import { useCallback } from "react";
import { useBoardId } from "#client/store/hooks.ts";

/** Turns a path of `links.ts` into the `href` of a link: `/songs/x` → `#/b/BOARD/songs/x`. */
export const useHref = (): ((path: string) => string) => {
  const board = useBoardId();
  return useCallback((path) => `#/b/${encodeURIComponent(board)}${path}`, [board]);
};
