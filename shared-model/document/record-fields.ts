import type { RootMap } from "./root-maps.ts";
import * as schema from "./schema.ts";
import { CARD_SIDES } from "./side-schema.ts";

/** Fields, with their defaults, of the maps whose keys end in a field name. */
export const RECORD_FIELDS: { readonly [M in RootMap]?: schema.Fields } = {
  band: schema.BAND,
  songs: schema.SONG,
  chairs: schema.CHAIR,
  people: schema.PERSON,
  gigs: schema.GIG,
  rehearsals: schema.REHEARSAL,
  sections: schema.SECTION,
  castings: schema.CASTING,
  cards: CARD_SIDES,
  setSongs: schema.SET_SONG,
};
