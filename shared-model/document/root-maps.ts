/**
 * The root maps of a band's document and the shape of their keys.
 * Governing rule: flat keys only. A nested container created by two people at once would lose one person's
 * content although the replicas converge; a flat key never does.
 */

/** Key segments of each root map. `field` ends an entity key; `writer` marks a register per device. */
export const ROOT_MAPS = {
  /** field → value: the band itself. */
  band: ["field"],
  songs: ["song", "field"],
  chairs: ["chair", "field"],
  people: ["person", "field"],
  gigs: ["gig", "field"],
  sections: ["song", "section", "field"],
  castings: ["song", "chair", "field"],
  /** Who plays when: how a chair plays in a section, as recorded or as we play it. */
  textures: ["song", "section", "chair", "source"],
  /** True = what this could ask about a form is not asked of this song any more. */
  hints: ["song", "hint"],
  /** A song's place in a gig, key, tempo and tuning of that night. */
  setSongs: ["gig", "song", "field"],
  /** Member id on a chair for one gig; empty = nobody. */
  lineUps: ["gig", "chair"],
  waivers: ["gig", "song", "gate"],
  /** A hired evening by its day, `YYYY-MM-DD`. */
  rehearsals: ["day", "field"],
  /** When a member is in the room. */
  attendance: ["day", "member"],
  /** Member id on a chair for one evening; empty = nobody. */
  standIns: ["day", "chair"],
  /** What a leader asked of a song for one evening; empty = nothing. */
  pins: ["day", "song"],
  /** Days on which somebody cannot come. */
  aways: ["away"],
  /** What belongs together in a detail, plus `since` and `deleted` on their own. */
  cards: ["card", "field"],
  texts: ["card", "field", "writer"],
  statuses: ["card", "member", "writer"],
  takes: ["occasion", "song", "no", "writer"],
  slips: ["occasion", "song", "no", "chair", "card", "writer"],
  rulings: ["ruling"],
  questions: ["question"],
  answers: ["question", "writer"],
  /** One of the band's constants → its number; null = where it starts. */
  settings: ["constant"],
  /** Grow-only set of finished migrations. */
  migrations: ["migration"],
} as const;

export type RootMap = keyof typeof ROOT_MAPS;

export const ROOT_MAP_NAMES = Object.keys(ROOT_MAPS) as readonly RootMap[];

/** Splits a document key into its segments, or null when their number does not fit the map. */
export const splitKey = (map: RootMap, key: string): readonly string[] | null => {
  const segments = key.split("/");
  return segments.length === ROOT_MAPS[map].length && segments.every((s) => s.length > 0) ? segments : null;
};

/** Joins segments into a document key. Throws on a segment that contains `/` or is empty: a programmer's mistake. */
export const joinKey = (map: RootMap, ...segments: readonly string[]): string => {
  const expected = ROOT_MAPS[map].length;
  if (segments.length !== expected || segments.some((s) => s.length === 0 || s.includes("/"))) {
    throw new Error(`Not a key of ${map}: ${segments.join(" / ")}`);
  }
  return segments.join("/");
};

/** Stands for "no chair" or "no card" in a slip's key. */
export const NONE = "-";
