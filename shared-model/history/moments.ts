import type { ValueWrite } from "../commands/restore-write.ts";
import type { Json } from "../document/board-document.ts";
import type { RootMap } from "../document/root-maps.ts";
import type { StoredValues } from "../document/stored-values.ts";
import type { RecordStates, Removable } from "./record-states.ts";

/** The two moments a restore compares; `past` is what it goes back to. */
export interface Moments {
  readonly current: StoredValues;
  readonly past: StoredValues;
  readonly states: { readonly current: RecordStates; readonly past: RecordStates };
}

/** True when the record a key hangs on was on the board then. Its contents are compared only in that case. */
export const wasOn = ({ states }: Moments, map: Removable, record: string): boolean =>
  states.past.of(map, record) === "on";

export const valueWrite = (
  { current }: Pick<Moments, "current">,
  map: ValueWrite["map"],
  key: string,
  value: unknown,
): ValueWrite => {
  const seen = current.get(map, key) as Json | undefined;
  return { put: "value", map, key, value: value as Json, ...(seen === undefined ? {} : { seen }) };
};

/** True for a detail that was on the board then, in a song that was. */
export const isCardOn = (moments: Moments, card: string): boolean => {
  const song = moments.states.past.body(card)?.song;
  return song !== undefined && wasOn(moments, "cards", card) && wasOn(moments, "songs", song);
};

/** Every key that either moment has. */
export const keysOf = ({ current, past }: Moments, map: RootMap): ReadonlySet<string> => {
  const keys = new Set<string>();
  for (const values of [current, past]) for (const [key] of values.entries(map)) keys.add(key);
  return keys;
};
