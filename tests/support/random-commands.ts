/** Any command of the registry with arguments that fit the board, from a few numbers. */
import type { Board, SongFile } from "#shared/board/board.ts";
import { CARD_KINDS, WEIGHTS } from "#shared/board/card.ts";
import { GATES } from "#shared/board/gate.ts";
import { partCardId } from "#shared/board/ids.ts";
import { STAGES } from "#shared/board/song.ts";
import { FEELS, TAKE_KINDS } from "#shared/board/take.ts";
import { PRESENCES, TEXTURE_SOURCES } from "#shared/board/texture.ts";
import { someSide } from "./side-values.ts";

export interface Invocation {
  readonly name: string;
  readonly args: unknown;
}

/** Three whole numbers ≥ 0 that choose what is meant. */
export interface Dice {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

const at = <T>(items: readonly T[], n: number): T | undefined => items[n % items.length];
const word = ({ a, b, c }: Dice): string => `word ${a}.${b}.${c}`;
const ids = (board: Board) => ({
  songs: [...board.songs.keys()],
  chairs: board.chairs.map(({ id }) => id),
  people: [...board.people.keys()],
  gigs: board.gigs.map(({ id }) => id),
});
const removed = (board: Board, map: string, n: number): string | undefined =>
  at(
    [...board.removed].filter((key) => key.startsWith(`${map}/`) && key.split("/").length === 2),
    n,
  )?.slice(map.length + 1);

const evening = (n: number): string => `2026-03-0${1 + (n % 3)}`;

type Make = (board: Board, dice: Dice) => unknown;

const inSong =
  (make: (file: SongFile, dice: Dice, board: Board) => unknown): Make =>
  (board, dice) => {
    const file = at([...board.songs.values()], dice.a);
    return file === undefined ? undefined : make(file, dice, board);
  };
const onCard = (make: (card: string, dice: Dice, board: Board) => unknown): Make =>
  inSong((file, dice, board) => {
    const card = at(file.cards, dice.b)?.id;
    return card === undefined ? undefined : make(card, dice, board);
  });
const onSection = (make: (song: string, section: string, dice: Dice) => unknown): Make =>
  inSong((file, dice) => {
    const section = at(file.sections, dice.b)?.id;
    return section === undefined ? undefined : make(file.song.id, section, dice);
  });
const inGig = (make: (gig: string, dice: Dice, board: Board) => unknown): Make => {
  return (board, dice) => {
    const gig = at(ids(board).gigs, dice.a);
    return gig === undefined ? undefined : make(gig, dice, board);
  };
};

/** Arguments by command; undefined where the board has nothing the command could be about. */
const MAKERS: Readonly<Record<string, Make>> = {
  startBand: (_, dice) => ({ name: word(dice), timeZone: "Europe/Lisbon" }),
  adjustSettings: (_, { a, b, c }) => {
    const [days, solo] = [30 + (a % 60), (b % 4) / 4];
    if (c % 3 === 0) return { settings: { togetherDays: days, kindWeight: { solo } } };
    return { changes: { togetherDays: c % 3 === 1 ? null : days, "kindWeight.solo": solo } };
  },
  addSong: (_, dice) => ({ title: word(dice), tempo: 60 + (dice.a % 120), stage: at(STAGES, dice.b) }),
  importSong: (board, dice) => ({
    song: { title: `${word(dice)}?` },
    sections: [{ name: "Verse", bars: 8 }],
    textures: ids(board).chairs.map((chair) => ({
      section: 0,
      chair,
      changes: [{ bar: 1, pass: null, presence: at(PRESENCES, dice.b) }],
    })),
    details: [
      { text: word(dice), chairs: ids(board).chairs.slice(0, 1), kind: "groove", section: 0, grid: null },
    ],
  }),
  addSongs: (_, dice) => ({
    stage: "learning",
    songs: [
      { title: word(dice) },
      { title: `${word(dice)}!`, stage: at(STAGES, dice.c), form: [{ name: "Verse", bars: 8 }] },
    ],
  }),
  reviseSong: inSong(({ song }, dice) => ({
    song: song.id,
    fields:
      dice.b % 2 === 0
        ? { title: word(dice) }
        : {
            tempo: 60 + (dice.c % 120),
            key: "Em",
            melody: { key: "Em", low: 55, typical: 60 + (dice.c % 5), high: 70 },
          },
    learnAgain: dice.c % 3 === 0,
  })),
  moveSong: inSong(({ song }, { b }) => ({ song: song.id, index: b % 6 })),
  writeForm: inSong(({ song }, dice) => ({ song: song.id, sections: [{ name: word(dice), bars: 8 }] })),
  addSection: inSong(({ song }, dice) => ({
    song: song.id,
    name: word(dice),
    bars: 1 + (dice.b % 16),
    index: dice.c % 4,
  })),
  reviseSection: onSection((song, section, { a, c }) => ({
    song,
    section,
    bars: 1 + (c % 32),
    ...(a % 2 === 0
      ? {}
      : { repeats: 1 + (c % 3), metre: at(["", "6/8"], c), tempo: 90 + c, key: at(["", "A"], c) }),
  })),
  moveSection: onSection((song, section, { c }) => ({ song, section, index: c % 4 })),
  removeSection: onSection((song, section) => ({ song, section })),
  restoreSection: inSong(({ song }, { b }, board) => {
    const gone = [...board.removed].filter((key) => key.startsWith(`sections/${song.id}/`));
    return { song: song.id, section: at(gone, b)?.split("/")[2] };
  }),
  addChair: (_, dice) => ({ name: word(dice), instrument: "keys" }),
  reviseChair: (board, dice) => ({ chair: at(ids(board).chairs, dice.a), name: word(dice) }),
  giveChair: (board, { a, b }) => ({
    chair: at(ids(board).chairs, a),
    holder: at(ids(board).people, b) ?? "",
  }),
  moveChair: (board, { a, b }) => ({ chair: at(ids(board).chairs, a), index: b % 4 }),
  addPerson: (board, dice) => ({ name: word(dice), chairs: ids(board).chairs.slice(0, dice.b % 2) }),
  revisePerson: (board, dice) => ({
    person: at(ids(board).people, dice.a),
    name: word(dice),
    voice:
      dice.b % 3 === 0 ? null : { lowest: 50, comfortLow: 52 + (dice.b % 5), comfortHigh: 67, highest: 72 },
  }),
  castPart: inSong(({ song }, { b, c }, board) => ({
    song: song.id,
    chair: at(ids(board).chairs, b),
    ...(c % 3 === 2 ? { holder: at(ids(board).people, b + c) ?? "" } : { plays: c % 2 === 0 }),
  })),
  insertBars: inSong(({ song, sections }, { b, c }) => ({
    song: song.id,
    section: at(sections, b)?.id,
    at: 1 + (c % 8),
    count: 1 + (c % 3),
  })),
  removeBars: inSong(({ song, sections }, { b, c }) => ({
    song: song.id,
    section: at(sections, b)?.id,
    at: 1 + (c % 6),
    count: 1 + (b % 3),
  })),
  splitSection: inSong(({ song, sections }, dice) => ({
    song: song.id,
    section: at(sections, dice.b)?.id,
    at: 2 + (dice.c % 6),
    name: word(dice),
  })),
  joinSections: inSong(({ song, sections }, { b }) => ({ song: song.id, section: at(sections, b)?.id })),
  paintTexture: inSong(({ song, sections }, { b, c }, board) => ({
    song: song.id,
    source: at(TEXTURE_SOURCES, c),
    cells: sections.slice(0, 1 + (b % 2)).flatMap(({ id: section }) =>
      ids(board)
        .chairs.slice(0, 1 + (c % 2))
        .map((chair) => ({
          section,
          chair,
          changes:
            c % 5 === 0
              ? []
              : [
                  { bar: 1, pass: null, presence: at(PRESENCES, b + c) },
                  ...(b % 3 === 0 ? [{ bar: 1, pass: 2, presence: at(PRESENCES, c) }] : []),
                ],
        })),
    ),
  })),
  dismissHint: inSong(({ song }, { b, c }) => ({
    song: song.id,
    hint: at(["narrow", "all-in"], b),
    dismissed: c % 3 !== 0,
  })),
  declareNothingSpecial: inSong(({ song }, { b, c }, board) => ({
    song: song.id,
    chair: at(ids(board).chairs, b),
    member: at(ids(board).people, c) ?? "",
  })),
  addDetail: inSong(({ song, sections }, dice, board) => {
    const section = at(sections, dice.c)?.id;
    return {
      song: song.id,
      text: word(dice),
      right: dice.b % 2 === 0 ? "" : "everybody hears it",
      chairs: ids(board).chairs.slice(0, dice.b % 3),
      weight: at(WEIGHTS, dice.b),
      kind: at(CARD_KINDS, dice.c),
      where: section === undefined ? {} : { from: { section, bar: 1 } },
    };
  }),
  rewordDetail: onCard((card, dice) => ({
    card,
    field: dice.c % 4 === 0 ? "right" : "text",
    text: word(dice),
  })),
  reviseDetail: onCard((card, { c }) => ({
    card,
    fields: { weight: at(WEIGHTS, c) },
    learnAgain: c % 4 === 0,
  })),
  describeGrid: onCard((card, { b, c }, board) => ({
    card,
    grid:
      c % 5 === 0
        ? null
        : {
            steps: 8,
            perBeat: 2,
            rows: ids(board)
              .chairs.slice(0, 1 + (b % 2))
              .map((chair) => ({
                chair,
                ...(c % 3 === 0 ? { voice: "kick" } : {}),
                hits: "x--oX.x.".slice(c % 4) + "x--oX.x.".slice(0, c % 4),
              })),
          },
    of: b % 3 === 0 ? "recorded" : "ours",
    learnAgain: c % 4 === 0,
  })),
  describeShape: onCard((card, { b, c }) => ({
    card,
    shape:
      c % 5 === 0
        ? null
        : {
            frets: [null, b % 4, 2, c % 6],
            fingers: [null, null, 1, null],
            capo: b % 3,
            ...(b % 2 === 0 ? {} : { tuning: "D A D G" }),
          },
  })),
  describeSide: onCard((card, { b, c }, board) => ({
    card,
    ...someSide(b, c, ids(board).chairs[0] ?? ""),
    learnAgain: c % 4 === 0,
  })),
  placeDetail: onCard((card, _, board) => ({ card, chairs: ids(board).chairs.slice(0, 1) })),
  moveDetail: onCard((card, { c }) => ({ card, index: c % 5 })),
  markDetail: inSong(({ song, cards }, { b, c }, board) => {
    const chair = at(ids(board).chairs, b) ?? "none";
    const card = c % 3 === 0 ? partCardId(song.id, chair) : at(cards, b)?.id;
    return { card, member: at(ids(board).people, c) ?? "", level: (b + c) % 4 };
  }),
  logTake: inSong(({ song, cards }, { b, c }, board) => ({
    song: song.id,
    occasion: `r:2026-03-0${1 + (b % 3)}`,
    kind: at(TAKE_KINDS, b),
    at: Date.UTC(2026, 2, 1 + (b % 3), 20, (c % 12) * 5),
    seats: board.chairs.flatMap(({ id, holder }) => (holder === null ? [] : [{ chair: id, member: holder }])),
    feel: at(FEELS, c),
    slips: c % 2 === 0 ? [] : [{ card: at(cards, c)?.id ?? null, severity: 1 }],
  })),
  flagSlip: inSong(({ song, takes, cards }, { b, c }) => ({
    song: song.id,
    take: at(takes, b)?.id ?? "",
    card: at(cards, c)?.id ?? null,
    severity: at([0, 0.5, 1, 2], c),
  })),
  withdrawTake: inSong(({ song, takes }, { b }) => ({ song: song.id, take: at(takes, b)?.id ?? "" })),
  rule: inSong(({ song }, dice) => ({
    song: song.id,
    about: at(["key", "ending", "tempo", "form"], dice.b),
    source: "ours",
    text: word(dice),
    learnAgain: dice.c % 2 === 0,
  })),
  askQuestion: inSong(({ song, cards }, dice, board) => ({
    song: song.id,
    card: dice.b % 2 === 0 ? null : (at(cards, dice.b)?.id ?? null),
    gig: at(ids(board).gigs, dice.c) ?? null,
    text: word(dice),
  })),
  answerQuestion: inSong(({ questions }, dice) => ({
    question: at(questions, dice.b)?.id ?? "",
    text: word(dice),
  })),
  withdrawRuling: inSong(({ rulings }, { b }) => ({ ruling: at(rulings, b)?.id ?? "" })),
  settleQuestion: inSong(({ questions }, { b }) => ({ question: at(questions, b)?.id ?? "" })),
  withdrawQuestion: inSong(({ questions }, { b }) => ({ question: at(questions, b)?.id ?? "" })),
  planGig: (_, dice) => ({ name: word(dice), date: `2026-04-1${dice.a % 10}`, minutes: 90 }),
  reviseGig: inGig((gig, { b }) => ({ gig, minutes: 30 + (b % 120) })),
  callSongs: inGig((gig, { b }, board) => ({ gig, songs: ids(board).songs.slice(0, 1 + (b % 3)) })),
  dropSong: inGig((gig, { b }, board) => ({ gig, song: at(ids(board).songs, b) })),
  moveInGig: inGig((gig, { b, c }, board) => ({ gig, song: at(ids(board).songs, b), index: c % 4 })),
  arrangeGig: inGig((gig, { b, c }, board) => {
    const songs = [...new Set(ids(board).songs)].slice(0, b % 5);
    return { gig, blocks: [songs.slice(c % 3), songs.slice(0, c % 3)] };
  }),
  tellOfNight: inGig((gig, { b, c }, board) => ({
    gig,
    song: at(ids(board).songs, b),
    leftOut: b % 2 === 0,
    floorDid: at(["", "filled", "stayed", "emptied"], c),
  })),
  requestForGig: inGig((gig, { b, c }, board) => ({
    gig,
    song: at(ids(board).songs, b),
    askedBy: at(["the host", "a guest", ""], c),
  })),
  askForKey: inGig((gig, { b, c }, board) => ({
    gig,
    song: at(ids(board).songs, b),
    key: at(["Em", "D", ""], c),
  })),
  pinInGig: inGig((gig, { b, c }, board) => ({
    gig,
    song: at(ids(board).songs, b),
    pin: at(["here", "must", "not tonight", ""], c),
  })),
  tuneForGig: inGig((gig, { b, c }, board) => ({
    gig,
    song: at(ids(board).songs, b),
    tempo: 60 + (c % 90),
    tuning: c % 2 === 0 ? "half step down" : null,
  })),
  seatForGig: inGig((gig, { b, c }, board) => ({
    gig,
    chair: at(ids(board).chairs, b),
    member: c % 3 === 0 ? null : (at(ids(board).people, c) ?? ""),
  })),
  waiveGate: inGig((gig, { b, c }, board) => ({
    gig,
    song: at(ids(board).songs, b),
    gate: at(GATES, c),
    note: "we know",
  })),
  planRehearsal: (board, { a, b, c }) => ({
    day: evening(a),
    start: at(["", "19:30"], b),
    booked: 60 + (c % 90),
    gig: at(ids(board).gigs, b) ?? null,
  }),
  startRehearsal: (_, { a }) => ({ day: evening(a) }),
  endRehearsal: (_, { a }) => ({ day: evening(a) }),
  choosePlan: inSong(({ song, cards }, { a, b, c }) => ({
    day: evening(a),
    plan: [
      {
        song: song.id,
        runs: at([0, 1, 2], b),
        cards: cards.slice(0, c % 3).map(({ id }) => id),
        section: null,
        minutes: 4,
      },
    ],
  })),
  pinSong: inSong(({ song }, { b, c }) => ({
    day: evening(b),
    song: song.id,
    pin: at(["must", "not tonight", ""], c),
  })),
  sayWhoIsHere: (board, { a, b, c }) => ({
    day: evening(a),
    person: at(ids(board).people, b),
    here: c % 4 !== 0,
    from: c % 3 === 0 ? Date.UTC(2026, 2, 1 + (a % 3), 20) : null,
  }),
  standIn: (board, { a, b, c }) => ({
    day: evening(a),
    chair: at(ids(board).chairs, b),
    member: at(["", ...ids(board).people], c),
  }),
  sayAway: (board, { a, b }) => ({
    person: at(ids(board).people, a),
    from: evening(b),
    to: `2026-04-0${1 + (b % 5)}`,
  }),
  withdrawAway: (board, { a }) => ({ away: at(board.aways, a)?.id ?? "" }),
  cancelRehearsal: (board, { a }) => ({ id: at(board.rehearsals, a)?.day }),
  restoreRehearsal: (board, { a }) => ({ id: removed(board, "rehearsals", a) }),
  removeSong: (board, { a }) => ({ id: at(ids(board).songs, a) }),
  restoreSong: (board, { a }) => ({ id: removed(board, "songs", a) }),
  removeDetail: onCard((card) => ({ id: card })),
  restoreDetail: (board, { a }) => ({ id: removed(board, "cards", a) }),
  removeChair: (board, { a }) => ({ id: at(ids(board).chairs, a) }),
  restoreChair: (board, { a }) => ({ id: removed(board, "chairs", a) }),
  removePerson: (board, { a }) => ({ id: at(ids(board).people, a) }),
  restorePerson: (board, { a }) => ({ id: removed(board, "people", a) }),
  cancelGig: (board, { a }) => ({ id: at(ids(board).gigs, a) }),
  restoreGig: (board, { a }) => ({ id: removed(board, "gigs", a) }),
};

/** Commands that can be rolled; the others need a change or a past, and are rolled by whoever keeps those. */
export const ROLLED = Object.keys(MAKERS);

/** A command for this board, or null when there is nothing it could be about. It may still be refused. */
export const roll = (board: Board, command: string, dice: Dice): Invocation | null => {
  const args = MAKERS[command]?.(board, dice);
  return args === undefined ? null : { name: command, args };
};
