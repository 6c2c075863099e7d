/**
 * A night as one player reads it on stage: at most seven short lines a song. It is worked out once, when the stand is
 * opened, and is all that the screen and the paper show, so that both say the same.
 */
import type { Gig, GigSong } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, type LineUp, lineUpFor } from "../board/line-up.ts";
import { readSide } from "../board/sides/detail-sides.ts";
import { timesWords } from "../board/sides/side-words.ts";
import type { Section } from "../board/song.ts";
import { formatWhere } from "../board/where.ts";
import { nightChord, nightLift } from "./night-facts.ts";
import { orderOf } from "./running-order.ts";

/** In the order they are read. */
export const STAND_LINES = ["song", "key", "tempo", "count-in", "first", "must", "ending"] as const;
export type StandLineName = (typeof STAND_LINES)[number];

/**
 * Most characters of a line: what fits at 32 px in two rows of a phone held upright and in one row of the same phone on
 * its side; where there is most to say, in a row more.
 */
export const LINE_MOST: { readonly [N in StandLineName]: number } = {
  song: 40,
  key: 40,
  tempo: 40,
  "count-in": 40,
  first: 58,
  must: 58,
  ending: 58,
};

export interface StandLine {
  readonly name: StandLineName;
  readonly text: string;
}

export interface StandSong {
  readonly id: Id;
  readonly title: string;
  /** From 0. */
  readonly block: number;
  readonly lines: readonly StandLine[];
  /** Whether the line of the must names one. */
  readonly must: boolean;
  /** Beats per minute that night, and the metre that says how they are grouped; null = not settled. */
  readonly tempo: number | null;
  readonly metre: string;
}

export interface StandNight {
  readonly gig: Id;
  readonly title: string;
  /** Name and chairs of the player; empty = nobody in particular. */
  readonly player: string;
  readonly songs: readonly StandSong[];
}

/** Words cut to a length at the end of a word; what is left out is marked. */
export const cutWords = (text: string, most: number): string => {
  const plain = text.replace(/\s+/gu, " ").trim();
  const signs = [...plain];
  if (signs.length <= most) return plain;
  const head = signs.slice(0, most - 1).join("");
  const end = head.lastIndexOf(" ");
  return `${(end > most / 2 ? head.slice(0, end) : head).replace(/[\s,;:·]+$/u, "")}…`;
};

const STRINGS: ReadonlySet<string> = new Set(["guitar", "bass"]);
/** Kinds that tell a player how a song begins for them. */
const BEGINNINGS: ReadonlySet<string> = new Set([
  "entry", "rest", "vocal entry", "key", "position", "shape", "pattern", "register", "groove", "solo",
]); // biome-ignore format: one glance

/** One song, seen from one player's seats that night. */
interface Seat {
  readonly board: Pick<Board, "chairs" | "people" | "band">;
  readonly file: SongFile;
  readonly entry: GigSong;
  readonly lineUp: LineUp;
  /** Chairs whose details are theirs; every chair where nobody in particular reads. */
  readonly own: ReadonlySet<Id>;
  /** Instruments they play in this song. */
  readonly plays: ReadonlySet<string>;
  readonly member: Id | null;
}

const seatOf = (
  board: Pick<Board, "chairs" | "people" | "band">,
  gig: Gig,
  file: SongFile,
  entry: GigSong,
  member: Id | null,
): Seat => {
  const lineUp = lineUpFor(board, file, gig);
  const sat = board.chairs.filter(
    ({ id }) => castingOf(file, id).plays && (member === null || lineUp.get(id) === member),
  );
  return {
    board,
    file,
    entry,
    lineUp,
    member,
    own: new Set(sat.map(({ id }) => id)),
    plays: new Set(sat.map(({ instrument }) => instrument)),
  };
};

/** The player's details in playing order; a cover counts only while the chair it covers is empty. */
const ownCards = ({ file, own, lineUp }: Seat): readonly Card[] =>
  file.cards.filter(
    ({ chairs, without }) =>
      chairs.some((chair) => own.has(chair)) &&
      (without === undefined || (lineUp.get(without) ?? null) === null),
  );

const keyLine = ({ board, file: { song }, entry, plays }: Seat): string => {
  const key = entry.key ?? song.key;
  const lift = nightLift(song, entry.key);
  const strings = [...plays].some((instrument) => STRINGS.has(instrument));
  const parts = [
    key === "" ? "Key not settled" : lift === "" ? key : `${key}, lift to ${lift}`,
    strings ? (entry.tuning ?? (song.tuning || board.band.tuning)) : "",
    plays.has("guitar") && song.capo > 0 ? `capo ${song.capo}` : "",
  ];
  return parts.filter((part) => part !== "").join(" · ");
};

const tempoLine = ({ file: { song }, entry }: Seat): string => {
  const tempo = entry.tempo ?? song.tempo;
  const metre = song.metre === "" || song.metre === "4/4" ? "" : ` · ${song.metre}`;
  return tempo === null ? `Tempo not settled${metre}` : `${tempo} bpm${metre}`;
};

const countLine = ({ file }: Seat): string => {
  const said = file.song.countIn || (file.cards.find(({ kind }) => kind === "count-in")?.text ?? "");
  return said === "" ? "Count-in not settled" : `Count: ${said}`;
};

const sectionWords = ({ name, bars, repeats, metre, tempo }: Section): string =>
  [
    name,
    `${bars} ${bars === 1 ? "bar" : "bars"}`,
    repeats === 1 ? "" : timesWords(repeats),
    metre,
    tempo === null ? "" : `${tempo} bpm`,
  ]
    .filter((part) => part !== "")
    .join(", ");

const firstLine = (seat: Seat): string => {
  const { file, entry, member, own, plays } = seat;
  if (member !== null && own.size === 0) return "Tacet: you do not play";
  const [opening] = file.sections;
  if (opening === undefined) return "First: form not written";
  const first =
    member === null
      ? undefined
      : ownCards(seat).find(({ kind, where }) => BEGINNINGS.has(kind) && where.from?.section === opening.id);
  // Drums have no use for it.
  const chord = plays.size === 1 && plays.has("drums") ? "" : nightChord(file.song, entry.key);
  return `First: ${[chord, first?.text ?? sectionWords(opening)].filter((part) => part !== "").join(" · ")}`;
};

/** Count-in and ending have lines of their own. */
const hasLine = ({ kind }: Card): boolean => kind === "ending" || kind === "count-in";

const ownMusts = (seat: Seat): readonly Card[] => ownCards(seat).filter(({ weight }) => weight === "must");
const nextMust = (seat: Seat): Card | undefined => ownMusts(seat).find((card) => !hasLine(card));

const mustLine = (seat: Seat): string => {
  const must = nextMust(seat);
  if (must === undefined) return ownMusts(seat).length === 0 ? "No must" : "No other must";
  return `${formatWhere(must.where, seat.file.sections)}: ${must.text}`;
};

const endingLine = ({ board, file, lineUp }: Seat): string => {
  const card = file.cards.find(({ kind }) => kind === "ending");
  const said = file.song.ending || (card?.text ?? "");
  const cue = file.cards
    .map(({ sides }) => readSide("ending", sides?.ending)?.cue ?? null)
    .find((id) => id !== null);
  const chair = board.chairs.find(({ id }) => id === cue);
  const giver =
    chair === undefined ? undefined : (board.people.get(lineUp.get(chair.id) ?? "")?.name ?? chair.name);
  const by = giver === undefined ? "" : ` · cue ${giver.split(" ")[0]}`;
  if (said === "") return `Ending not settled${by}`;
  return `${cutWords(`End: ${said}`, LINE_MOST.ending - by.length)}${by}`;
};

const LINES: { readonly [N in StandLineName]: (seat: Seat, place: number) => string } = {
  song: ({ file }, place) => `${place} ${file.song.title}`,
  key: keyLine,
  tempo: tempoLine,
  "count-in": countLine,
  first: firstLine,
  must: mustLine,
  ending: endingLine,
};

/**
 * The night as it stands on the board now, for one player; null = for everybody. Songs that were taken off the board are
 * left out. Null when the gig is not on the board.
 */
export const standNight = (
  board: Pick<Board, "chairs" | "people" | "band" | "gigs" | "songs">,
  gigId: Id,
  member: Id | null,
): StandNight | null => {
  const gig = board.gigs.find(({ id }) => id === gigId);
  if (gig === undefined) return null;
  const entries = new Map(gig.songs.map((entry) => [entry.song, entry]));
  const order = orderOf(gig).flatMap((songs, block) =>
    songs.flatMap((id) => {
      const file = board.songs.get(id);
      const entry = entries.get(id);
      return file === undefined || entry === undefined ? [] : [{ file, entry, block }];
    }),
  );
  return {
    gig: gig.id,
    title: gig.name || gig.place,
    player: member === null ? "" : (board.people.get(member)?.name ?? ""),
    songs: order.map(({ file, entry, block }, i): StandSong => {
      const seat = seatOf(board, gig, file, entry, member);
      return {
        id: file.song.id,
        title: file.song.title,
        block,
        lines: STAND_LINES.map((name) => ({
          name,
          text: cutWords(LINES[name](seat, i + 1), LINE_MOST[name]),
        })),
        must: nextMust(seat) !== undefined,
        tempo: entry.tempo ?? file.song.tempo,
        metre: file.song.metre,
      };
    }),
  };
};

/** The next song in small: title and what has to be in the hands by then. */
export const nextWords = (song: StandSong | undefined): string =>
  song === undefined
    ? "then it is over"
    : [song.title, song.lines.find(({ name }) => name === "key")?.text ?? ""].join(" · ");
