import type { Presence } from "../board/texture.ts";

/** What a chair does, to follow its name; by `Presence`, and by anything a stored record may say instead. */
export const PRESENCE_VERBS: ReadonlyMap<string, string> = new Map<Presence, string>([
  ["rest", "rests"],
  ["light", "plays lightly"],
  ["play", "plays"],
  ["full", "plays full"],
]);
