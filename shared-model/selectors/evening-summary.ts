/**
 * What one evening changed, read from the board afterwards: who moved what, time per song, and what it did to the gig.
 * Governing rule: nobody is compared. Players stand in the band's own order, a member sees only their own.
 */
import type { Gig } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { GateName } from "../board/gate.ts";
import { type Id, isPartCardId } from "../board/ids.ts";
import { lineUpFor } from "../board/line-up.ts";
import type { Feel, Slip, Take } from "../board/take.ts";
import { type Day, endOfDay } from "../lib/calendar.ts";
import { gigReady } from "../readiness/gates.ts";
import { cardName, namesOf } from "../readiness/names.ts";
import { readyMinutes } from "../readiness/ready-minutes.ts";
import { scoreSong } from "../readiness/song-score.ts";
import { type EveningTime, eveningTime } from "./evening-time.ts";
import { songThen } from "./song-then.ts";

export interface EveningSource {
  readonly board: Board;
  readonly day: Day;
  /** The gig it is told for; null = none. */
  readonly gig: Gig | null;
  /** Device clock, ms. */
  readonly now: number;
}

/** From when to when the evening counts: [from, to], ms. */
export interface EveningSpan {
  readonly from: number;
  readonly to: number;
}

/** One song that was played. */
export interface PlayedSong {
  readonly song: Id;
  readonly title: string;
  readonly takes: Readonly<Record<Feel, number>>;
  readonly minutes: number;
}

/** One detail, or the part itself, of one player. */
export interface Moved {
  readonly song: Id;
  readonly title: string;
  readonly card: Id;
  /** What it is, in words. */
  readonly words: string;
}

export interface PlayerEvening {
  readonly member: Id;
  readonly lockedIn: readonly Moved[];
  readonly practised: readonly Moved[];
  readonly slipped: readonly Moved[];
}

/** One song of the gig, before and after. */
export interface SongEffect {
  readonly song: Id;
  readonly title: string;
  /** Score at the gig's day, 0 to 1. */
  readonly before: number;
  readonly after: number;
  /** Gates that were shut before and are open now, and the other way round. */
  readonly cleared: readonly GateName[];
  readonly lost: readonly GateName[];
  readonly readyBefore: boolean;
  readonly readyAfter: boolean;
}

export interface EveningSummary {
  readonly span: EveningSpan;
  /** In the order they were first played. */
  readonly songs: readonly PlayedSong[];
  readonly time: EveningTime;
  /** In the band's order; only those of whom there is something to tell. */
  readonly players: readonly PlayerEvening[];
  /** Slips nobody could place. */
  readonly unplaced: number;
}

const takesOf = (board: Board, day: Day): readonly Take[] =>
  [...board.songs.values()]
    .flatMap(({ takes }) => takes.filter(({ occasion }) => occasion === `r:${day}`))
    .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));

/**
 * The stretch that counts as the evening. It begins when somebody said so, or with the first take if that was earlier;
 * it ends when somebody said so, or with the last take if that was later, else with the day. Without a beginning and
 * without a take it is empty.
 */
export const eveningSpan = ({ board, day, now }: EveningSource): EveningSpan => {
  const known = board.rehearsals.find((rehearsal) => rehearsal.day === day);
  const takes = takesOf(board, day);
  const night = endOfDay(day, board.band.timeZone);
  const from = Math.min(known?.startedAt ?? night, takes[0]?.at ?? night);
  const end = Math.max(known?.endedAt ?? night, takes.at(-1)?.at ?? from);
  return { from, to: Math.max(from, Math.min(now, end)) };
};

const within = ({ from, to }: EveningSpan, at: number): boolean => from <= at && at <= to;

const wordsOf = (file: SongFile, id: Id): string => {
  if (isPartCardId(id)) return "the part itself";
  const card = file.cards.find((candidate) => candidate.id === id);
  return card === undefined ? "a detail that is gone" : cardName(file, card);
};

/** Who has to hear of a slip: whoever sat on its chair, or on the detail's chairs where nobody said whose it was. */
const slippers = (file: SongFile, take: Take, slip: Slip): readonly Id[] => {
  const card = file.cards.find(({ id }) => id === slip.card);
  const chairs = slip.chair === null ? (card?.chairs ?? []) : [slip.chair];
  return [...new Set(take.seats.filter(({ chair }) => chairs.includes(chair)).map(({ member }) => member))];
};

const playerEvening = (board: Board, member: Id, day: Day, span: EveningSpan): PlayerEvening => {
  const lockedIn: Moved[] = [];
  const practised: Moved[] = [];
  const slipped: Moved[] = [];
  for (const file of board.songs.values()) {
    const { id: song, title } = file.song;
    const moved = (card: Id): Moved => ({ song, title, card, words: wordsOf(file, card) });
    for (const [card, marks] of file.statuses) {
      const mark = marks.get(member);
      // By when it was claimed: an undo writes anew what was claimed on another day.
      if (mark === undefined || !within(span, mark.anchor)) continue;
      if (mark.level === 3) lockedIn.push(moved(card));
      else if (mark.level === 2 && mark.from < 2) practised.push(moved(card));
    }
    const known = new Set<Id>();
    for (const take of file.takes)
      if (take.occasion === `r:${day}`)
        for (const slip of take.slips)
          if (slippers(file, take, slip).includes(member))
            known.add(slip.card ?? `part:${song}:${slip.chair}`);
    slipped.push(...[...known].map(moved));
  }
  return { member, lockedIn, practised, slipped };
};

/** What was played and who moved what. `only` = one player's own; null = everybody's. */
export const eveningSummary = (source: EveningSource, only: Id | null): EveningSummary => {
  const { board, day } = source;
  const span = eveningSpan(source);
  const takes = takesOf(board, day);
  const time = eveningTime(takes, {
    from: board.rehearsals.find((rehearsal) => rehearsal.day === day)?.startedAt ?? null,
    to: span.to,
  });
  const songs = [...time.bySong].map(([song, minutes]): PlayedSong => {
    const counted = (feel: Feel): number =>
      takes.filter((take) => take.song === song && take.feel === feel).length;
    return {
      song,
      title: board.songs.get(song)?.song.title ?? "",
      takes: { clean: counted("clean"), wobble: counted("wobble"), stopped: counted("stopped") },
      minutes,
    };
  });
  const members = only === null ? [...board.people.keys()] : [only];
  return {
    span,
    songs,
    time,
    players: members
      .map((member) => playerEvening(board, member, day, span))
      .filter(({ lockedIn, practised, slipped }) => lockedIn.length + practised.length + slipped.length > 0),
    unplaced: takes.flatMap(({ slips }) => slips).filter(({ chair, card }) => chair === null && card === null)
      .length,
  };
};

/**
 * What the evening did to each song of the gig, one after another: the costly part, to be walked through in slices. The
 * score is the gig day's; before = the song without what the evening added (see `songThen`), for the same line-up and gig.
 */
export const songEffects = function* (source: EveningSource): Generator<SongEffect, void> {
  const { board, gig } = source;
  if (gig === null) return;
  const { from, to } = eveningSpan(source);
  const names = namesOf(board);
  const { settings, timeZone } = board.band;
  for (const { song } of gig.songs) {
    const file = board.songs.get(song);
    if (file === undefined) continue;
    const lineUp = lineUpFor(board, file, gig);
    const read = (then: SongFile, asOf: number) => {
      const input = {
        file: then,
        chairs: board.chairs,
        lineUp,
        settings,
        t: endOfDay(gig.date, timeZone),
        asOf,
      };
      const score = scoreSong(input);
      return { score: score.score, ready: gigReady(input, { gig, names }, score) };
    };
    const before = read(songThen(file, from), from - 1);
    const after = read(songThen(file, to + 1), to);
    const open = ({ gates }: typeof before.ready): ReadonlySet<GateName> =>
      new Set(gates.flatMap((gate) => (gate.ok || gate.waived !== null ? [gate.gate] : [])));
    const [was, is] = [open(before.ready), open(after.ready)];
    yield {
      song,
      title: file.song.title,
      before: before.score,
      after: after.score,
      cleared: [...is].filter((gate) => !was.has(gate)),
      lost: [...was].filter((gate) => !is.has(gate)),
      readyBefore: before.ready.ready,
      readyAfter: after.ready.ready,
    };
  }
};

export interface GigEffect {
  /** Ready minutes. */
  readonly before: number;
  readonly after: number;
  readonly contracted: number;
}

/** What the evening did to the gig's ready minutes. */
export const gigEffect = (
  { board }: Pick<EveningSource, "board">,
  gig: Gig,
  effects: readonly SongEffect[],
): GigEffect => {
  const minutes = (ready: (effect: SongEffect) => boolean): number => {
    const songs = new Set(effects.filter(ready).map(({ song }) => song));
    return readyMinutes(gig, board.songs, (song) => songs.has(song), board.band.settings).ready;
  };
  return {
    before: minutes(({ readyBefore }) => readyBefore),
    after: minutes(({ readyAfter }) => readyAfter),
    contracted: gig.minutes,
  };
};
