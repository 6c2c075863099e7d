import * as v from "valibot";
import type { FirstChord, Song } from "../board/song.ts";
import { isChord } from "../music/chord-root.ts";

/** One chord, or nothing. The document takes any line, so that no phone needs this to read one. */
export const chord = v.pipe(
  v.string(),
  v.check((text) => text === "" || isChord(text), "write one chord such as D5 or Em7"),
);

type Said = { readonly key?: string; readonly firstChord?: string };
type Kept<F extends Said> = Omit<F, "firstChord"> & { readonly firstChord?: FirstChord | null };

/**
 * A first chord is kept with the key it is in: the one that is said with it, else the song's. One that was written while
 * no key was settled is in the first key that is.
 */
export const withChordKey = <F extends Said>(
  fields: F,
  before: Pick<Song, "key" | "firstChord"> | null,
): Kept<F> => {
  const { firstChord: said, ...others } = fields;
  if (said !== undefined)
    return {
      ...others,
      firstChord: said === "" ? null : { chord: said, key: fields.key ?? before?.key ?? "" },
    };
  const stands = before?.firstChord ?? null;
  return stands !== null && stands.key === "" && fields.key !== undefined && fields.key !== ""
    ? { ...others, firstChord: { ...stands, key: fields.key } }
    : others;
};
