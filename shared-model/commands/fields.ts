import type { Json, SetKey } from "../document/board-document.ts";
import { joinKey, type RootMap } from "../document/root-maps.ts";

/** Writes every given field of one entity; undefined fields stay as they are. */
export const setFields = (
  set: SetKey,
  map: RootMap,
  entity: readonly string[],
  fields: { readonly [name: string]: Json | undefined },
): void => {
  for (const [name, value] of Object.entries(fields)) {
    if (value !== undefined) set(map, joinKey(map, ...entity, name), value);
  }
};
