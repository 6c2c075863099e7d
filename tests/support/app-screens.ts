/** Every screen of the product by its address, as somebody on the demo board comes to it. */

export interface AppScreen {
  readonly name: string;
  /** Within the board `/b/…` unless `open`. */
  readonly path: string;
  /** Outside any board. */
  readonly open?: boolean;
  /** On a laptop only: what stands beside the board there is a page on a phone. */
  readonly laptop?: boolean;
}

const SONG = "demo-song-md";
const CHAIR = "demo-chair-gt1";

export const APP_SCREENS: readonly AppScreen[] = [
  { name: "welcome", path: "/", open: true },
  { name: "join", path: "/join/nowhere/nothing", open: true },
  { name: "nothing", path: "/nowhere", open: true },
  { name: "kit", path: "/gallery", open: true },
  { name: "board", path: "/board" },
  { name: "board-part", path: `/board/part/${SONG}/${CHAIR}`, laptop: true },
  { name: "board-score", path: "/board/score/demo-song-wa", laptop: true },
  { name: "score", path: "/songs/demo-song-wa/score" },
  { name: "parts", path: "/parts" },
  { name: "practice", path: "/parts/practice" },
  { name: "practise", path: `/parts/practice/${SONG}/demo-card-md1` },
  { name: "room", path: "/room" },
  { name: "sound", path: "/room/sound" },
  { name: "room-song", path: `/room/${SONG}` },
  { name: "tonight", path: "/room/evening/tonight" },
  { name: "plan", path: "/room/plan" },
  { name: "songs", path: "/songs" },
  { name: "song-import", path: "/songs/import" },
  { name: "song", path: `/songs/${SONG}` },
  { name: "listen", path: `/songs/${SONG}/listen` },
  { name: "part", path: `/songs/${SONG}/part/${CHAIR}` },
  { name: "gigs", path: "/gigs" },
  { name: "gig", path: "/gigs/demo-gig-slot" },
  { name: "order", path: "/gigs/demo-gig-slot/order" },
  { name: "stand", path: "/gigs/demo-gig-slot/stand" },
  { name: "load-in", path: "/gigs/demo-gig-slot/load-in" },
  { name: "debrief", path: "/gigs/demo-gig-cellar/debrief" },
  { name: "while-out", path: "/while-out" },
  { name: "questions", path: "/questions" },
  { name: "people", path: "/people" },
  { name: "settings", path: "/settings" },
  { name: "history", path: "/history" },
  { name: "who", path: "/who" },
  { name: "start", path: "/start" },
];
