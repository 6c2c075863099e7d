import {
  CHAIR_CODES,
  type ChairCode,
  type DemoEvening,
  type PersonCode,
  type SongCode,
} from "./demo-data.ts";
import { DEMO_CHAIRS } from "./people.ts";
import { DEMO_SONGS } from "./songs/all-songs.ts";

const USUAL = new Map(DEMO_CHAIRS.map(({ code, holder }) => [code, holder]));
const SONGS = new Map(DEMO_SONGS.map((song) => [song.code, song]));

/** Who plays a chair in a song when nobody is away; null where the song has nothing for it. */
export const holderOf = (song: SongCode, chair: ChairCode): PersonCode | null => {
  const casting = SONGS.get(song)?.castings?.[chair];
  return casting?.plays === false ? null : (casting?.holder ?? USUAL.get(chair) ?? null);
};

/** Who sat on which chair of a song on one evening. */
export const seatsOf = (
  song: SongCode,
  { away, deps }: Pick<DemoEvening, "away" | "deps">,
): readonly { readonly chair: ChairCode; readonly member: PersonCode }[] =>
  CHAIR_CODES.filter((chair) => !away.includes(chair)).flatMap((chair) => {
    const usual = holderOf(song, chair);
    return usual === null ? [] : [{ chair, member: deps[chair] ?? usual }];
  });
