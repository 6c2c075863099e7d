/** Spares of a running order: what could stand in for each song, what had better go, what has gone stale. */
import type { Id } from "../board/ids.ts";
import type { Song } from "../board/song.ts";

/** A song as the list reads it. */
export interface SwapSong {
  readonly song: Song;
  /** Tempo, tuning and key of the night. */
  readonly tempo: number | null;
  readonly tuning: string;
  /** Gig-ready, or let pass. */
  readonly ready: boolean;
  /** Score on the night, 0 to 1. */
  readonly score: number;
  /** Moment (ms) the band last played it whole; null = never. */
  readonly playedAt: number | null;
}

export interface Swap {
  readonly song: Id;
  /** The best spare; null = none is ready. */
  readonly spare: Id | null;
  /** What the spare does not match, in words; empty = it fits in all. */
  readonly differs: readonly string[];
}

/** How far (share) the tempos of a song and its spare may lie apart. Common practice, no published source. */
const NEAR_TEMPO = 0.1;

const differences = (a: SwapSong, b: SwapSong): readonly string[] => [
  ...(a.song.floor !== b.song.floor ? ["another role on the floor"] : []),
  ...(a.tuning !== b.tuning || a.song.capo !== b.song.capo ? ["another tuning or capo"] : []),
  ...(a.tempo !== null && b.tempo !== null && Math.abs(b.tempo - a.tempo) > NEAR_TEMPO * a.tempo + 1e-9
    ? [`${b.tempo} instead of ${a.tempo}`]
    : []),
];

const apart = (a: SwapSong, b: SwapSong): number =>
  a.tempo === null || b.tempo === null ? 1 : Math.abs(Math.log2(b.tempo / a.tempo));

/** For each song of the order the ready spare that fits it best: same role on the floor, same tuning, near tempo. */
export const swapsOf = (played: readonly SwapSong[], spares: readonly SwapSong[]): readonly Swap[] =>
  played.map((one) => {
    const ranked = spares
      .filter(({ ready }) => ready)
      .map((spare) => ({ spare, differs: differences(one, spare) }))
      .sort(
        (a, b) =>
          a.differs.length - b.differs.length ||
          apart(one, a.spare) - apart(one, b.spare) ||
          (a.spare.song.id < b.spare.song.id ? -1 : 1),
      );
    const [best] = ranked;
    return { song: one.song.id, spare: best?.spare.song.id ?? null, differs: best?.differs ?? [] };
  });

const DAY_MS = 86_400_000;
/** Minutes around a song's own length that refreshing it takes: finding the start, one look at the ending. */
const AROUND = 1;

export interface StaleSong {
  readonly song: Id;
  /** Whole days since the band last played it; null = never. */
  readonly days: number | null;
  /** Minutes of room that one run takes. */
  readonly minutes: number;
}

/** Songs of the order that were not played whole for more than `days` before `night` (ms), the longest ago first. */
export const staleSongs = (
  played: readonly SwapSong[],
  night: number,
  days: number,
  usualSeconds: number,
): readonly StaleSong[] =>
  played
    .map(
      ({ song, playedAt }): StaleSong => ({
        song: song.id,
        days: playedAt === null ? null : Math.floor((night - playedAt) / DAY_MS),
        minutes: Math.ceil((song.length ?? usualSeconds) / 60) + AROUND,
      }),
    )
    .filter((stale) => stale.days === null || stale.days > days)
    .sort((a, b) => (b.days ?? Number.POSITIVE_INFINITY) - (a.days ?? Number.POSITIVE_INFINITY));
