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
  { path: "/", screen: screen(async () => (await import("./welcome-route.tsx")).WelcomeRoute) },
  {
    path: "/last/:place?",
    screen: screen(async () => (await import("./last-route.tsx")).LastRoute),
    ahead: true,
  },
  // The secret leaves the address at once, and the screen must outlive that.
  {
    path: "/join/:board?/:secret?",
    screen: screen(async () => (await import("./join-route.tsx")).JoinRoute),
    ahead: true,
  },
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
    path: "/parts",
    screen: screen(async () => (await import("./my-parts-route.tsx")).MyPartsRoute),
    ahead: true,
  },
  {
    path: "/parts/practice/:song?/:card?",
    screen: screen(async () => (await import("./practice-route.tsx")).PracticeRoute),
    ahead: true,
  },
  {
    path: "/room/sound",
    screen: screen(async () => (await import("#client/features/sound-level/sound-screen.tsx")).SoundScreen),
    ahead: true,
  },
  {
    path: "/room/evening/tonight",
    screen: screen(async () => (await import("#client/features/log-take/tonight-screen.tsx")).TonightScreen),
    ahead: true,
  },
  {
    path: "/room/plan/:day?",
    screen: screen(async () => (await import("./plan-route.tsx")).PlanRoute),
    ahead: true,
  },
  {
    path: "/room/:song?",
    screen: screen(async () => (await import("./room-route.tsx")).RoomRoute),
    ahead: true,
  },
  {
    path: "/songs/:song/score",
    screen: screen(async () => (await import("./score-route.tsx")).ScoreRoute),
    ahead: true,
  },
  {
    path: "/songs",
    screen: screen(async () => (await import("#client/features/songs/songs-screen.tsx")).SongsScreen),
    ahead: true,
  },
  {
    path: "/songs/import",
    screen: screen(async () => (await import("#client/features/import-song/import-screen.tsx")).ImportScreen),
    ahead: true,
  },
  {
    path: "/songs/:song/part/:chair/:card?",
    screen: screen(async () => (await import("./part-route.tsx")).PartRoute),
    ahead: true,
  },
  {
    path: "/songs/:song/listen",
    screen: screen(async () => (await import("./listen-route.tsx")).ListenRoute),
    ahead: true,
  },
  {
    path: "/songs/:song/take/:take",
    screen: screen(async () => (await import("./song-route.tsx")).SongRoute),
    ahead: true,
  },
  {
    path: "/songs/:song",
    screen: screen(async () => (await import("./song-route.tsx")).SongRoute),
    ahead: true,
  },
  {
    path: "/gigs",
    screen: screen(async () => (await import("#client/features/gigs/gigs-screen.tsx")).GigsScreen),
    ahead: true,
  },
  {
    path: "/gigs/:gig/debrief",
    screen: screen(async () => (await import("./debrief-route.tsx")).DebriefRoute),
    ahead: true,
  },
  {
    path: "/gigs/:gig/order",
    screen: screen(async () => (await import("./order-route.tsx")).OrderRoute),
    ahead: true,
  },
  {
    path: "/gigs/:gig/stand",
    screen: screen(async () => (await import("./stand-route.tsx")).StandRoute),
    ahead: true,
  },
  {
    path: "/gigs/:gig/load-in",
    screen: screen(async () => (await import("./load-in-route.tsx")).LoadInRoute),
    ahead: true,
  },
  { path: "/gigs/:gig", screen: screen(async () => (await import("./gig-route.tsx")).GigRoute), ahead: true },
  {
    path: "/questions",
    screen: screen(
      async () => (await import("#client/features/questions/questions-screen.tsx")).QuestionsScreen,
    ),
    ahead: true,
  },
  {
    path: "/while-out",
    screen: screen(async () => (await import("./while-out-route.tsx")).WhileOutRoute),
    ahead: true,
  },
  {
    path: "/people",
    screen: screen(async () => (await import("#client/features/people/people-screen.tsx")).PeopleScreen),
    ahead: true,
  },
  {
    path: "/settings",
    screen: screen(async () => (await import("./settings-route.tsx")).SettingsRoute),
    ahead: true,
  },
  {
    path: "/history/at/:document/:seq",
    screen: screen(async () => (await import("./moment-route.tsx")).MomentRoute),
  },
  {
    path: "/history/:song?",
    screen: screen(async () => (await import("./history-route.tsx")).HistoryRoute),
  },
  { path: "/who", screen: screen(async () => (await import("./who-route.tsx")).WhoRoute), ahead: true },
  { path: "/start", screen: screen(async () => (await import("./start-route.tsx")).StartRoute) },
];
