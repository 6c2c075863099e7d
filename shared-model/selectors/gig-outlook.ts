/** How a gig stands: minutes ready of minutes contracted, song by song, and who is not there. */
import type { Chair, Gig, Person } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { seatKept, seatMeant } from "../board/line-up.ts";
import type { Settings } from "../board/settings.ts";
import type { Obstacle } from "../readiness/gate-answer.ts";
import type { Names } from "../readiness/names.ts";
import { type ReadyMinutes, readyMinutes } from "../readiness/ready-minutes.ts";
import type { SongReading } from "./board-row.ts";
import { pointsOf } from "./points.ts";

/** One song of the running order. */
export interface OutlookSong {
  readonly song: Id;
  readonly title: string;
  /** Score on the night, 0 to 100. */
  readonly points: number;
  readonly ready: boolean;
  /** Gates the leader let pass. */
  readonly waived: number;
  /** What stands first in the way; null when ready. */
  readonly reason: Obstacle | null;
  /** Played length in seconds; null where nobody has filled it in. */
  readonly length: number | null;
}

/** A chair that is filled differently that night, or not at all. */
export interface OutlookSeat {
  readonly chair: Chair;
  /** Who usually holds it; null = vacant. */
  readonly usual: Id | null;
  /** Who holds it that night; null = nobody. */
  readonly tonight: Id | null;
  /** Songs of the running order in which nobody plays it although it has something to play. */
  readonly uncovered: number;
}

export interface GigOutlook {
  readonly minutes: ReadyMinutes;
  /** Minutes of gaps between the songs, part of `minutes.planned`. */
  readonly gaps: number;
  readonly songs: readonly OutlookSong[];
  readonly readySongs: number;
  readonly seats: readonly OutlookSeat[];
}

export interface OutlookSource {
  readonly gig: Gig;
  readonly songs: ReadonlyMap<Id, SongFile>;
  readonly chairs: readonly Chair[];
  readonly people: ReadonlyMap<Id, Person>;
  readonly settings: Settings;
  /** Reads one song for this gig; null when it is not on the board. */
  readonly reading: (song: Id) => SongReading | null;
}

/** Reads a gig. Songs that are no longer on the board are left out. */
export const gigOutlook = (source: OutlookSource): GigOutlook => {
  const { gig, settings } = source;
  const readings = gig.songs.flatMap(({ song }) => source.reading(song) ?? []);
  const ready = new Set(readings.flatMap((r) => (r.ready.ready ? [r.file.song.id] : [])));
  return {
    minutes: readyMinutes(gig, source.songs, (song) => ready.has(song), settings),
    gaps: (settings.gapSeconds * Math.max(0, readings.length - 1)) / 60,
    songs: readings.map(songOf),
    readySongs: readings.filter((r) => r.ready.ready).length,
    seats: seatsOf(source, readings),
  };
};

const songOf = ({ file, ready, night }: SongReading): OutlookSong => ({
  song: file.song.id,
  title: file.song.title,
  points: pointsOf(night.score),
  ready: ready.ready,
  waived: ready.gates.filter((gate) => !gate.ok && gate.waived !== null).length,
  reason: ready.first,
  length: file.song.length,
});

const seatsOf = (
  { gig, chairs, people }: OutlookSource,
  readings: readonly SongReading[],
): readonly OutlookSeat[] => {
  return chairs
    .map((chair) => ({
      chair,
      usual: seatKept(chair.holder, { people }, null),
      tonight: seatKept(seatMeant(chair, gig), { people }, gig),
      uncovered: readings.filter(({ night }) =>
        night.plan.parts.some((part) => part.chair === chair.id && part.holder === null),
      ).length,
    }))
    .filter(({ usual, tonight, uncovered }) => usual !== tonight || uncovered > 0);
};

/** Songs that stand in the way, the lowest score first. */
export const belowTheLine = (songs: readonly OutlookSong[]): readonly OutlookSong[] =>
  songs.filter(({ ready }) => !ready).sort((a, b) => a.points - b.points);

/** True when both say the same. */
export const sameOutlook = (a: GigOutlook, b: GigOutlook): boolean =>
  a.minutes.ready === b.minutes.ready &&
  a.minutes.planned === b.minutes.planned &&
  a.minutes.contracted === b.minutes.contracted &&
  a.gaps === b.gaps &&
  sameList(a.songs, b.songs, sameSong) &&
  sameList(a.seats, b.seats, sameSeat);

const sameSong = (a: OutlookSong, b: OutlookSong): boolean =>
  a.song === b.song &&
  a.title === b.title &&
  a.points === b.points &&
  a.ready === b.ready &&
  a.waived === b.waived &&
  a.length === b.length &&
  a.reason?.sentence === b.reason?.sentence;

const sameSeat = (a: OutlookSeat, b: OutlookSeat): boolean =>
  a.chair === b.chair && a.usual === b.usual && a.tonight === b.tonight && a.uncovered === b.uncovered;

const sameList = <T>(a: readonly T[], b: readonly T[], same: (x: T, y: T) => boolean): boolean =>
  a.length === b.length &&
  a.every((item, i) => {
    const other = b[i];
    return other !== undefined && same(item, other);
  });

/** A seat in one sentence, e.g. `Karim Belhossat is on Bass for Min-jae Pardal.` */
export const seatSentence = ({ chair, usual, tonight, uncovered }: OutlookSeat, names: Names): string => {
  const songs = uncovered === 1 ? "1 song" : `${uncovered} songs`;
  if (tonight === null) {
    const away = usual === null ? "" : `${names.member(usual)} is away: `;
    const nobody = `${away === "" ? "Nobody" : "nobody"} on ${chair.name}`;
    return uncovered === 0 ? `${away}${nobody}.` : `${away}${nobody}, in ${songs}.`;
  }
  if (usual === tonight) return `${chair.name} has nobody in ${songs}.`;
  const stead = usual === null ? "" : ` for ${names.member(usual)}`;
  const hole = uncovered === 0 ? "" : `, but nobody in ${songs}`;
  return `${names.member(tonight)} is on ${chair.name}${stead}${hole}.`;
};
