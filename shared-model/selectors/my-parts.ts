/** One member's own parts of one song: which chairs, what is open, what is locked in. */

import type { Gig } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, type GigSeats, type LineUp, lineUpFor } from "../board/line-up.ts";
import { scoreMember } from "../readiness/member-score.ts";
import { type DetailLine, type PartSource, type PartView, partView } from "./part-view.ts";
import { pointsOf } from "./points.ts";
import { gigFirst } from "./song-order.ts";

const playsIn = (file: SongFile, lineUp: LineUp, member: Id): boolean =>
  [...lineUp].some(([chair, holder]) => holder === member && castingOf(file, chair).plays);

/**
 * The line-up a member sees their parts under: the gig's if they play the song that night, else the usual one, so
 * that somebody who is away that night still finds their parts. Null = nothing to play in this song.
 */
export const memberLineUp = (
  board: Pick<Board, "chairs" | "people">,
  file: SongFile,
  gig: GigSeats | null,
  member: Id,
): LineUp | null => {
  const tonight = lineUpFor(board, file, gig);
  if (playsIn(file, tonight, member)) return tonight;
  const usual = lineUpFor(board, file, null);
  return playsIn(file, usual, member) ? usual : null;
};

/** One of the member's parts, its details in playing order. */
export interface MyPart {
  readonly view: PartView;
  /** A detail that several of the member's chairs share stands under the first of them. */
  readonly details: readonly DetailLine[];
}

/** Reads a member's parts of a song; empty where they have nothing to play. `source.lineUp` from `memberLineUp`. */
export const myParts = (source: PartSource, member: Id): readonly MyPart[] => {
  const place = new Map(source.file.cards.map(({ id }, i) => [id, i]));
  const told = new Set<Id>();
  return source.chairs
    .filter(({ id }) => source.lineUp.get(id) === member && castingOf(source.file, id).plays)
    .map((chair) => {
      const view = partView(source, chair);
      const details = view.details
        .filter(({ card }) => !told.has(card.id) && told.add(card.id))
        .sort((a, b) => (place.get(a.card.id) ?? 0) - (place.get(b.card.id) ?? 0));
      return { view, details };
    });
};

/** True while the member has something left to do on it, waiting for the others included. */
export const isOpen = ({ standings: [mine] }: DetailLine): boolean => mine === undefined || mine.level < 3;

/** True when the member has locked it in and it waits for a run together. */
export const isWaiting = ({ standings: [mine] }: DetailLine): boolean => mine?.waiting === true;

/** What stands on a song's line while it is folded. */
export interface MyHead {
  /** Open details that are the member's to move. */
  readonly open: number;
  /** Of those, musts. */
  readonly musts: number;
  /** Details that wait for a run together. */
  readonly waiting: number;
  readonly lockedIn: number;
  /** The member's own score today in points; null = nothing to play. */
  readonly own: number | null;
}

/** Reads a song's line for one member. */
export const myHead = (source: PartSource, member: Id): MyHead => {
  const details = myParts(source, member).flatMap((part) => part.details);
  const waiting = details.filter(isWaiting).length;
  const mine = details.filter((line) => isOpen(line) && !isWaiting(line));
  const own = scoreMember(source.score, member);
  return {
    open: mine.length,
    musts: mine.filter(({ card }) => card.weight === "must").length,
    waiting,
    lockedIn: details.length - mine.length - waiting,
    own: own === null ? null : pointsOf(own),
  };
};

/** True when both read the same. */
export const sameHead = (a: MyHead, b: MyHead): boolean =>
  a.open === b.open &&
  a.musts === b.musts &&
  a.waiting === b.waiting &&
  a.lockedIn === b.lockedIn &&
  a.own === b.own;

/** What is open, in words: `3 open, 1 must`, `1 waits`, `all locked in`, `no details yet`. */
export const openWords = ({ open, musts, waiting, lockedIn }: MyHead): string => {
  if (open > 0) return musts > 0 ? `${open} open, ${musts} must` : `${open} open`;
  if (waiting > 0) return waiting === 1 ? "1 waits" : `${waiting} wait`;
  return lockedIn > 0 ? "all locked in" : "no details yet";
};

/** A member's songs, as their own screen lists them. */
export interface MySongs {
  /** The gig's songs in which they play, in running order. */
  readonly called: readonly Id[];
  /** The others in which they play; resting songs are left out. */
  readonly others: readonly Id[];
  /** The gig's songs in which they have nothing to play. */
  readonly tacet: readonly Id[];
  /** Ids of their details by song, without those they wrote themselves. */
  readonly details: ReadonlyMap<Id, readonly Id[]>;
}

/** Reads a member's songs. Computes no score, so it costs little on every change. */
export const mySongs = (board: Board, gig: Gig | null, member: Id): MySongs => {
  const { called, others } = gigFirst(board.songs, gig);
  const details = new Map<Id, readonly Id[]>();
  const mine = (file: SongFile): boolean => {
    const lineUp = memberLineUp(board, file, gig, member);
    if (lineUp === null) return false;
    const cards = file.cards.filter(
      ({ chairs, createdBy }) => createdBy !== member && chairs.some((chair) => lineUp.get(chair) === member),
    );
    details.set(
      file.song.id,
      cards.map(({ id }) => id),
    );
    return true;
  };
  const ids = (files: readonly SongFile[]): readonly Id[] => files.map(({ song }) => song.id);
  const playing = called.filter(mine);
  return {
    called: ids(playing),
    others: ids(others.filter(mine)),
    tacet: ids(called.filter((file) => !playing.includes(file))),
    details,
  };
};

const sameList = (a: readonly Id[], b: readonly Id[]): boolean =>
  a.length === b.length && a.every((id, i) => id === b[i]);

/** True when both list the same songs in the same order. */
export const sameSongs = (
  a: Pick<MySongs, "called" | "others">,
  b: Pick<MySongs, "called" | "others">,
): boolean => sameList(a.called, b.called) && sameList(a.others, b.others);

/** True when both say the same. */
export const sameMySongs = (a: MySongs, b: MySongs): boolean =>
  sameSongs(a, b) &&
  sameList(a.tacet, b.tacet) &&
  a.details.size === b.details.size &&
  [...a.details].every(([song, ids]) => sameList(ids, b.details.get(song) ?? []));
