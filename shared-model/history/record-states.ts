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
  rehearsals: 1,
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

/** Answers when asked, and remembers. */
export const readStates = (values: StoredValues): RecordStates => {
  const found = new Map<Removable, ReadonlySet<string>>();
  const bodies = new Map<string, CardBody | undefined>();
  const records = (map: Removable): ReadonlySet<string> => {
    const known = found.get(map) ?? new Set([...values.entries(map)].map(([key]) => recordOfKey(map, key)));
    found.set(map, known);
    return known;
  };
  const body = (card: string): CardBody | undefined => {
    if (bodies.has(card)) return bodies.get(card);
    const parsed = v.safeParse(CARD_BODY, values.get("cards", `${card}/body`));
    bodies.set(card, parsed.success ? parsed.output : undefined);
    return bodies.get(card);
  };
  return {
    records,
    body,
    of: (map, record) => {
      const known = map === "cards" ? body(record) !== undefined : records(map).has(record);
      if (!known) return "absent";
      return values.get(map, `${record}/deleted`) === true ? "off" : "on";
    },
  };
};
