import * as v from "valibot";
import type { RootMap } from "../document/root-maps.ts";
import { CARD_BODY, type CardBody } from "../document/schema.ts";
import type { StoredValues } from "../document/stored-values.ts";

/** Maps whose records are taken off the board by a mark, and how many key segments name one record. */
export const REMOVABLE = {
  songs: 1,
  chairs: 1,
  people: 1,
  gigs: 1,
  sections: 2,
  cards: 1,
} as const satisfies { readonly [M in RootMap]?: number };
export type Removable = keyof typeof REMOVABLE;

export const REMOVABLE_MAPS = Object.keys(REMOVABLE) as readonly Removable[];

/** `absent`: nothing was ever said of it. `off`: taken off the board, with everything said about it. */
export type RecordState = "absent" | "off" | "on";

/** Which records there were at one moment, and which of them were on the board. */
export interface RecordStates {
  readonly of: (map: Removable, record: string) => RecordState;
  readonly records: (map: Removable) => Iterable<string>;
  /** A detail that is or was on the board; undefined where its body cannot be read. */
  readonly body: (card: string) => CardBody | undefined;
}

export const recordOfKey = (map: Removable, key: string): string =>
  key.split("/").slice(0, REMOVABLE[map]).join("/");

/** Reads every record's state once. */
export const readStates = (values: StoredValues): RecordStates => {
  const states = new Map<string, RecordState>();
  const records = new Map<Removable, Set<string>>();
  const bodies = new Map<string, CardBody>();
  for (const [key, raw] of values.entries("cards")) {
    const body = key.endsWith("/body") ? v.safeParse(CARD_BODY, raw) : null;
    if (body?.success) bodies.set(recordOfKey("cards", key), body.output);
  }
  for (const map of REMOVABLE_MAPS) {
    const found = new Set<string>();
    for (const [key] of values.entries(map)) found.add(recordOfKey(map, key));
    records.set(map, found);
    for (const record of found) {
      const off = values.get(map, `${record}/deleted`) === true;
      const known = map !== "cards" || bodies.has(record);
      states.set(`${map}/${record}`, known ? (off ? "off" : "on") : "absent");
    }
  }
  return {
    of: (map, record) => states.get(`${map}/${record}`) ?? "absent",
    records: (map) => records.get(map) ?? [],
    body: (card) => bodies.get(card),
  };
};
