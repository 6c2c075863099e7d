/** A gig as it would be: without somebody, with somebody else, in another key, with another song. Nothing here is written. */
import type { Gig, GigSong } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, lineUpFor } from "../board/line-up.ts";
import type { Seat } from "../board/take.ts";
import { byOrder } from "../document/order-key.ts";
import type { Obstacle } from "../readiness/gate-answer.ts";
import { listed, type Names } from "../readiness/names.ts";
import { pointsOf } from "./points.ts";

/** One thing that is supposed. */
export type Supposed =
  /** Somebody cannot come: every seat that falls to them is empty. */
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
const withOne = (gig: Gig, supposed: Supposed): Gig => {
  if (supposed.of === "without")
    return gig.away.includes(supposed.person) ? gig : { ...gig, away: [...gig.away, supposed.person] };
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
export const suppose = (gig: Gig, supposed: readonly Supposed[]): Gig => supposed.reduce(withOne, gig);

/** Everybody who plays in a called song that night, in the order of the board. */
export const playersOf = (
  { songs, chairs, people }: Pick<Board, "songs" | "chairs" | "people">,
  gig: Gig,
): readonly Id[] => {
  const playing = new Set<Id>();
  for (const { song } of gig.songs) {
    const file = songs.get(song);
    if (file === undefined) continue;
    for (const [chair, seat] of lineUpFor({ chairs, people }, file, gig))
      if (seat !== null && castingOf(file, chair).plays) playing.add(seat);
  }
  return [...people.keys()].filter((id) => playing.has(id));
};

/** One song as it stands and as it would. */
export interface SongStand {
  readonly song: Id;
  readonly title: string;
  /** Score on the night, 0 to 1. */
  readonly score: number;
  readonly ready: boolean;
  readonly reason: Obstacle | null;
  /** Who plays what in it. */
  readonly seats: readonly Seat[];
}

/** What would become of one song. */
export interface SongChange {
  readonly song: Id;
  readonly title: string;
  /** One sentence. */
  readonly sentence: string;
  readonly worse: boolean;
}

/** Why a song stands higher with other people on it; empty where the same people play. */
const whyHigher = (before: SongStand, after: SongStand, names: Names): string => {
  const on = ({ seats }: SongStand, chair: Id): Id | null =>
    seats.find((seat) => seat.chair === chair)?.member ?? null;
  const seated = after.seats.filter(({ chair, member }) => on(before, chair) !== member);
  const gone = before.seats.filter(({ chair }) => on(after, chair) === null);
  if (seated.length > 0)
    return `${listed(seated.map(({ chair, member }) => `${names.member(member)} on ${names.chair(chair)}`))} ${seated.length === 1 ? "has" : "have"} practised and shown more of it than who plays it usually`;
  return gone.length > 0
    ? `what ${listed([...new Set(gone.map(({ member }) => names.member(member)))])} had not practised or shown counts no more`
    : "";
};

const sentenceOf = (before: SongStand | undefined, after: SongStand, names: Names): string => {
  const to = pointsOf(after.score);
  if (before === undefined)
    return after.ready
      ? `comes in, ready, at ${to} %`
      : `comes in at ${to} %: ${after.reason?.sentence ?? "not ready"}`;
  const from = pointsOf(before.score);
  const score = from === to ? "" : `${from} to ${to} %`;
  const because = to > from ? whyHigher(before, after, names) : "";
  const gate =
    before.ready === after.ready
      ? ""
      : after.ready
        ? "ready then"
        : `not ready then: ${after.reason?.sentence ?? ""}`;
  return [score, gate, because].filter((part) => part !== "").join("; ");
};

/** The songs that would stand differently, those that get worse first. */
export const changedSongs = (
  before: readonly SongStand[],
  after: readonly SongStand[],
  names: Names,
): readonly SongChange[] => {
  const was = new Map(before.map((stand) => [stand.song, stand]));
  const changes = after.flatMap((stand): (SongChange & { readonly by: number })[] => {
    const old = was.get(stand.song);
    const by = old === undefined ? 0 : pointsOf(stand.score) - pointsOf(old.score);
    if (old !== undefined && by === 0 && old.ready === stand.ready) return [];
    const worse = by < 0 || (old?.ready === true && !stand.ready);
    return [{ song: stand.song, title: stand.title, sentence: sentenceOf(old, stand, names), worse, by }];
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
