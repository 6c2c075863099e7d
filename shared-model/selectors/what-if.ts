/** A gig as it would be: without somebody, with somebody else, in another key, with another song. Nothing here is written. */
import type { Chair, Gig, GigSong } from "../board/band.ts";
import type { Id } from "../board/ids.ts";
import { byOrder } from "../document/order-key.ts";
import type { Obstacle } from "../readiness/gate-answer.ts";
import type { Names } from "../readiness/names.ts";
import { pointsOf } from "./points.ts";

/** One thing that is supposed. */
export type Supposed =
  /** Somebody cannot come: every chair they would sit on is empty. */
  | { readonly of: "without"; readonly person: Id }
  /** Somebody sits on a chair. */
  | { readonly of: "seat"; readonly chair: Id; readonly member: Id }
  | { readonly of: "key"; readonly song: Id; readonly key: string }
  | { readonly of: "swap"; readonly out: Id; readonly in: Id };

const plain = (song: Id, order: string): GigSong => ({
  song,
  order,
  key: null,
  tempo: null,
  tuning: null,
  block: 0,
  pin: "",
});

/** The gig with one more thing supposed. What names something that is not there changes nothing. */
const withOne = (gig: Gig, supposed: Supposed, chairs: readonly Chair[]): Gig => {
  if (supposed.of === "without") {
    const lineUp = new Map(gig.lineUp);
    for (const { id, holder } of chairs)
      if ((lineUp.has(id) ? lineUp.get(id) : holder) === supposed.person) lineUp.set(id, null);
    return { ...gig, lineUp };
  }
  if (supposed.of === "seat")
    return { ...gig, lineUp: new Map(gig.lineUp).set(supposed.chair, supposed.member) };
  if (supposed.of === "key")
    return {
      ...gig,
      songs: gig.songs.map((entry) =>
        entry.song === supposed.song ? { ...entry, key: supposed.key } : entry,
      ),
    };
  if (gig.songs.some(({ song }) => song === supposed.in)) return gig;
  const songs = gig.songs.map((entry) =>
    entry.song === supposed.out ? { ...plain(supposed.in, entry.order), block: entry.block } : entry,
  );
  return { ...gig, songs: [...songs].sort((a, b) => byOrder({ ...a, id: a.song }, { ...b, id: b.song })) };
};

/** The gig with everything supposed, in that order. */
export const suppose = (gig: Gig, supposed: readonly Supposed[], chairs: readonly Chair[]): Gig =>
  supposed.reduce((before, one) => withOne(before, one, chairs), gig);

/** One song as it stands and as it would. */
export interface SongStand {
  readonly song: Id;
  readonly title: string;
  /** Score on the night, 0 to 1. */
  readonly score: number;
  readonly ready: boolean;
  readonly reason: Obstacle | null;
}

/** What would become of one song. */
export interface SongChange {
  readonly song: Id;
  readonly title: string;
  /** One sentence. */
  readonly sentence: string;
  readonly worse: boolean;
}

const sentenceOf = (before: SongStand | undefined, after: SongStand, replaced: boolean): string => {
  const to = pointsOf(after.score);
  if (before === undefined)
    return after.ready
      ? `comes in, ready, at ${to} %`
      : `comes in at ${to} %: ${after.reason?.sentence ?? "not ready"}`;
  const from = pointsOf(before.score);
  const score = from === to ? "" : `${from} to ${to} %`;
  const because =
    to > from && replaced
      ? "whoever sits there instead has more practised and shown than the usual player"
      : to > from
        ? "what nobody had shown there counts no more"
        : "";
  const gate =
    before.ready === after.ready
      ? ""
      : after.ready
        ? "ready then"
        : `not ready then: ${after.reason?.sentence ?? ""}`;
  return [score, gate, because].filter((part) => part !== "").join("; ");
};

/** The songs that would stand differently, those that get worse first. `replaced`: somebody else would sit on a chair. */
export const changedSongs = (
  before: readonly SongStand[],
  after: readonly SongStand[],
  replaced: boolean,
): readonly SongChange[] => {
  const was = new Map(before.map((stand) => [stand.song, stand]));
  const changes = after.flatMap((stand): (SongChange & { readonly by: number })[] => {
    const old = was.get(stand.song);
    const by = old === undefined ? 0 : pointsOf(stand.score) - pointsOf(old.score);
    if (old !== undefined && by === 0 && old.ready === stand.ready) return [];
    const worse = by < 0 || (old?.ready === true && !stand.ready);
    return [{ song: stand.song, title: stand.title, sentence: sentenceOf(old, stand, replaced), worse, by }];
  });
  return changes
    .sort((a, b) => Number(b.worse) - Number(a.worse) || a.by - b.by || (a.title < b.title ? -1 : 1))
    .map(({ by: _, ...change }) => change);
};

/** What is supposed, in words: `without Ifeoma Adisalu`, `Bass: Karim Belhossat`. */
export const supposedWords = (supposed: Supposed, names: Names, titleOf: (song: Id) => string): string => {
  if (supposed.of === "without") return `without ${names.member(supposed.person)}`;
  if (supposed.of === "seat") return `${names.chair(supposed.chair)}: ${names.member(supposed.member)}`;
  if (supposed.of === "key") return `${titleOf(supposed.song)} in ${supposed.key}`;
  return `${titleOf(supposed.in)} for ${titleOf(supposed.out)}`;
};
