import type { Json } from "./board-document.ts";
import type { RootMap } from "./root-maps.ts";

/**
 * What stands for "nobody said anything" in maps whose keys each hold one whole value. Keys are never deleted, so an undo
 * and a restore write it.
 */
export const NEUTRAL_VALUES: { readonly [M in RootMap]?: Json } = {
  lineUps: null,
  standIns: "",
  pins: "",
  textures: { changes: [] },
  hints: false,
  attendance: { here: true, from: null, to: null, at: 0 },
};
