import * as v from "valibot";
import { isChord } from "../music/chord-root.ts";

/** One chord, or nothing. The document takes any line, so that no phone needs this to read one. */
export const chord = v.pipe(
  v.string(),
  v.check((text) => text === "" || isChord(text), "write one chord such as D5 or Em7"),
);

/** A first chord is kept with the key it is in: the one that is said with it, else `key`. */
export const withChordKey = <F extends { readonly key?: string; readonly firstChord?: string }>(
  fields: F,
  key: string,
): F & { readonly chordKey?: string } =>
  fields.firstChord === undefined ? fields : { ...fields, chordKey: fields.key ?? key };
