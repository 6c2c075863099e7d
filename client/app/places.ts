/** The five places of a board, in the trade's words, in the order of the navigation. */
export const PLACES = [
  { name: "Board", path: "/board" },
  { name: "My parts", path: "/parts" },
  { name: "Room", path: "/room" },
  { name: "Songs", path: "/songs" },
  { name: "Gigs", path: "/gigs" },
] as const;

/** Address of a path within a board, as an `href`. */
export const boardHref = (board: string, path: string): string => `#/b/${encodeURIComponent(board)}${path}`;

/** True when a path within a board lies in the place: `/songs/x` lies in `/songs`. */
export const liesIn = (path: string, place: string): boolean =>
  path === place || path.startsWith(`${place}/`);
