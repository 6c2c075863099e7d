/** A gig's running order as the search sees it, and as a band reads it. */
import type { Gig, GigSong } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, lineUpFor } from "../board/line-up.ts";
import type { FloorRole } from "../board/song.ts";
import { arcAt, type SetBlock, type SetBrief, type SetOrder, type SetSong } from "../order/set-facts.ts";

/** How full each role makes the floor. Common practice, no published source. */
const FLOOR: Readonly<Record<FloorRole, number>> = {
  "": 0.5,
  fills: 0.9,
  holds: 0.6,
  slow: 0.45,
  seated: 0.2,
};
/** What a song is taken to be like while nobody has said. */
const UNSAID = 0.5;
/** Seconds a song is taken to last while nobody has said. */
export const UNSAID_SECONDS = 210;
/** The energy a night usually wants: in with something, room to rise, the most at the end. */
export const USUAL_ARC: readonly number[] = [0.6, 0.5, 0.65, 0.8, 1];
const ARC_POINTS = 5;
/** Shares of a song's worth: how ready it is, and how often the band plays it. */
const READY_SHARE = 0.6;
/** What a request is worth beside that: as much as a song that stands and is always played. Common practice, no published source. */
const REQUEST_WORTH = 1;

/** What is known of one song for the gig, from its score. */
export interface NightReading {
  /** Score on the night, 0 to 1. */
  readonly night: number;
  /** Gig-ready, or the leader let it pass. */
  readonly ready: boolean;
}

export interface OrderSource {
  readonly board: Pick<Board, "songs" | "chairs" | "people" | "band" | "gigs">;
  readonly gig: Gig;
  /** Null for a song that is not on the board. */
  readonly reading: (song: Id) => NightReading | null;
}

/** Contracted minutes of each block. */
export const blockMinutes = ({ blocks, minutes }: Pick<Gig, "blocks" | "minutes">): readonly number[] =>
  blocks.length === 0 ? [minutes] : blocks;

/** The called songs by block. */
export const orderOf = (gig: Pick<Gig, "blocks" | "minutes" | "songs">): SetOrder => {
  const count = blockMinutes(gig).length;
  return Array.from({ length: count }, (_, block) =>
    gig.songs.filter((entry) => Math.min(entry.block, count - 1) === block).map(({ song }) => song),
  );
};

/** Who sings lead in a song that night; null = nobody sits there. */
const leadOf = ({ board, gig }: OrderSource, file: SongFile): Id | null => {
  const lineUp = lineUpFor(board, file, gig);
  const chair = board.chairs.find(
    ({ id, instrument }) => instrument === "lead voice" && castingOf(file, id).plays,
  );
  return chair === undefined ? null : (lineUp.get(chair.id) ?? null);
};

/** Share of the gigs so far at which a song was played; 0 without a gig. */
const playedShare = ({ takes }: SongFile, past: ReadonlySet<string>): number => {
  if (past.size === 0) return 0;
  const played = new Set(takes.filter(({ occasion }) => past.has(occasion)).map(({ occasion }) => occasion));
  return played.size / past.size;
};

const factsOf = (
  source: OrderSource,
  file: SongFile,
  entry: GigSong | undefined,
  past: ReadonlySet<string>,
): SetSong => {
  const { song } = file;
  const energy = song.energy === null ? UNSAID : (song.energy - 1) / 4;
  const { strong } = song;
  const night = source.reading(song.id)?.night ?? 0;
  return {
    id: song.id,
    seconds: song.length ?? UNSAID_SECONDS,
    energy,
    dance: FLOOR[song.floor],
    value:
      READY_SHARE * night +
      (1 - READY_SHARE) * playedShare(file, past) +
      (source.gig.requests.has(song.id) ? REQUEST_WORTH : 0),
    opener: strong === "opener" || strong === "both" ? 1 : energy / 2,
    closer: strong === "closer" || strong === "both" ? 1 : energy / 2,
    tempo: entry?.tempo ?? song.tempo,
    key: entry?.key ?? song.key,
    tuning: `${entry?.tuning ?? (song.tuning || source.board.band.tuning)}|${song.capo}`,
    rig: song.rig.trim().toLowerCase(),
    lead: leadOf(source, file),
    hardToSing: song.hardToSing,
    mustPlay: entry?.pin === "must" || entry?.pin === "here",
  };
};

/** A block's share of the arc drawn for the night. */
const arcOf = (arc: readonly number[], before: number, minutes: number, all: number): readonly number[] =>
  Array.from({ length: ARC_POINTS }, (_, i) =>
    arcAt(arc, all === 0 ? 0 : (before + (minutes * i) / (ARC_POINTS - 1)) / all),
  );

/** What the search needs: songs that are ready or called and not ruled out, blocks, pins, and what stands. */
export const orderBrief = (source: OrderSource): SetBrief => {
  const { board, gig } = source;
  const entries = new Map(gig.songs.map((entry) => [entry.song, entry]));
  const banned = new Set(gig.banned);
  const past = new Set(board.gigs.filter(({ date }) => date < gig.date).map(({ id }) => `g:${id}`));
  const candidates = [...board.songs.values()].filter(({ song }) => {
    if (entries.has(song.id)) return true;
    return !banned.has(song.id) && song.stage !== "resting" && (source.reading(song.id)?.ready ?? false);
  });
  const minutes = blockMinutes(gig);
  const all = minutes.reduce((sum, each) => sum + each, 0);
  const arc = gig.arc.length === 0 ? USUAL_ARC : gig.arc;
  let before = 0;
  const blocks = minutes.map((each): SetBlock => {
    const block = { minutes: each, arc: arcOf(arc, before, each, all) };
    before += each;
    return block;
  });
  const standing = orderOf(gig);
  return {
    songs: candidates.map((file) => factsOf(source, file, entries.get(file.song.id), past)),
    blocks,
    pins: standing.flatMap((songs, block) =>
      songs.flatMap((song, at) => (entries.get(song)?.pin === "here" ? [{ song, block, at }] : [])),
    ),
    standing,
    gapSeconds: board.band.settings.gapSeconds,
    talkSeconds: gig.talk * 60,
  };
};
