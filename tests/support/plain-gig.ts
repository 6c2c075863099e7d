import type { Gig } from "#shared/board/band.ts";

/** What a gig says of itself while nobody has said anything but its day. */
export const NOTHING_AGREED = {
  blocks: [],
  arc: [],
  talk: 0,
  call: "",
  start: "",
  dress: "",
  contact: "",
  note: "",
  banned: [],
  requests: new Map(),
  keysAsked: new Map(),
  told: new Map(),
  away: [],
} satisfies Partial<Gig>;
