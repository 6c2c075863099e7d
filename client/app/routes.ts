/*
 * The table of addresses. Every address lies in the URL fragment, so that the secret of a join link never reaches
 * a server's log. Screens load on demand; those marked `ahead` load as soon as the page is idle, so that a phone
 * that loses its signal in the cellar has them.
 */
import { type Screen, screen } from "./screen.tsx";

export interface ScreenRoute {
  /** wouter pattern. */
  readonly path: string;
  readonly screen: Screen;
  /** Load it when the page is idle. */
  readonly ahead?: boolean;
}

/** Addresses outside any board. */
export const openRoutes: readonly ScreenRoute[] = [
  { path: "/gallery", screen: screen(async () => (await import("#client/ui/gallery.tsx")).Gallery) },
];

/** Addresses within a board, after `/b/:board`. */
export const boardRoutes: readonly ScreenRoute[] = [
  {
    path: "/board/:what?/:song?/:chair?",
    screen: screen(async () => (await import("./board-route.tsx")).BoardRoute),
    ahead: true,
  },
  {
    path: "/songs/:song/score",
    screen: screen(async () => (await import("./score-route.tsx")).ScoreRoute),
    ahead: true,
  },
];
