/* What was tapped in one evening, kept apart from the product, and what the board must therefore say. */
import type { Board, SongFile } from "#shared/board/board.ts";
import type { Level } from "#shared/board/status.ts";
import { FEELS, type Feel } from "#shared/board/take.ts";

export interface LoggedHere {
  readonly person: string;
  readonly feel: Feel;
  /** Details and parts flagged before it was logged. */
  readonly slips: readonly string[];
  /** Who was away, as far as this device had heard. */
  readonly away: readonly string[];
}

export interface PlayedRun {
  readonly song: string;
  readonly no: number;
  /** Between which moments (ms, device clocks) it was logged. */
  readonly from: number;
  readonly to: number;
  readonly logs: LoggedHere[];
}

export interface Ledger {
  readonly levelOf: (card: string, member: string) => Level;
  readonly mark: (card: string, member: string, level: Level) => void;
  /** A mark was made and undone: what stood before stands again. */
  readonly unmark: (card: string, member: string) => void;
  /** `card/member` → level, of all that was marked and not undone. */
  readonly marks: ReadonlyMap<string, Level>;
  /** Marks that were undone and not made again. */
  readonly undone: ReadonlySet<string>;
  readonly runs: PlayedRun[];
  taps: number;
}

const levelOn = (board: Board, card: string, member: string): Level => {
  for (const file of board.songs.values()) {
    const mark = file.statuses.get(card)?.get(member);
    if (mark !== undefined) return mark.level;
  }
  return 0;
};

export const openLedger = (before: Board): Ledger => {
  const marks = new Map<string, Level>();
  const history = new Map<string, Level[]>();
  const undone = new Set<string>();
  const key = (card: string, member: string): string => `${card}/${member}`;
  return {
    levelOf: (card, member) => marks.get(key(card, member)) ?? levelOn(before, card, member),
    mark: (card, member, level) => {
      const at = key(card, member);
      history.set(at, [...(history.get(at) ?? []), level]);
      marks.set(at, level);
      undone.delete(at);
    },
    unmark: (card, member) => {
      const at = key(card, member);
      const rest = (history.get(at) ?? []).slice(0, -1);
      history.set(at, rest);
      const last = rest.at(-1);
      if (last !== undefined) marks.set(at, last);
      else {
        marks.delete(at);
        undone.add(at);
      }
    },
    marks,
    undone,
    runs: [],
    taps: 0,
  };
};

/** All statuses of a board, by song, detail and player. */
export const levelsOf = (board: Board): ReadonlyMap<string, Level> =>
  new Map(
    [...board.songs.values()].flatMap(({ statuses }) =>
      [...statuses].flatMap(([card, marks]) =>
        [...marks].map(([member, { level }]) => [`${card}/${member}`, level] as const),
      ),
    ),
  );

const playersOf = (board: Board, file: SongFile): readonly { chair: string; member: string }[] =>
  board.chairs.flatMap(({ id, holder }) => {
    const casting = file.castings.get(id);
    const member = casting?.holder ?? holder;
    return casting?.plays === false || member === null || member === undefined ? [] : [{ chair: id, member }];
  });

const inOrder = (texts: Iterable<string>): readonly string[] => [...new Set(texts)].sort();

export interface TakeInShort {
  readonly id: string;
  readonly feel: Feel;
  readonly by: readonly string[];
  /** `chair/member`. */
  readonly seats: readonly string[];
  /** `chair/card`; empty = none said. */
  readonly slips: readonly string[];
}

/** Where a flagged slip lies: on its one chair, or on a detail of several chairs as a whole. */
const spotOf = (board: Board, file: SongFile, card: string): string => {
  const part = new RegExp(`^part:${file.song.id}:(.+)$`).exec(card)?.[1];
  if (part !== undefined) return `${part}/`;
  const playing = new Set(playersOf(board, file).map(({ chair }) => chair));
  const chairs = file.cards.find(({ id }) => id === card)?.chairs.filter((chair) => playing.has(chair)) ?? [];
  return `${chairs.length === 1 ? chairs[0] : ""}/${card}`;
};

/** The takes that the ledger's runs must have become. */
export const takesDue = (board: Board, day: string, runs: readonly PlayedRun[]): readonly TakeInShort[] =>
  runs
    .filter(({ logs }) => logs.length > 0)
    .map(({ song, no, logs }) => {
      const file = board.songs.get(song);
      if (file === undefined) throw new Error(`No song ${song}`);
      const worst = Math.max(...logs.map(({ feel }) => FEELS.indexOf(feel)));
      return {
        id: `r:${day}/${song}/${no}`,
        feel: FEELS[worst] ?? "clean",
        by: inOrder(logs.map(({ person }) => person)),
        seats: inOrder(
          logs.flatMap(({ away }) =>
            playersOf(board, file)
              .filter(({ member }) => !away.includes(member))
              .map(({ chair, member }) => `${chair}/${member}`),
          ),
        ),
        slips: inOrder(logs.flatMap(({ slips }) => slips.map((card) => spotOf(board, file, card)))),
      };
    });

/** The takes that a board has of one evening, in the order they were played. */
export const takesOn = (board: Board, day: string): readonly (TakeInShort & { readonly at: number })[] =>
  [...board.songs.values()]
    .flatMap(({ takes }) => takes.filter(({ occasion }) => occasion === `r:${day}`))
    .sort((a, b) => a.at - b.at)
    .map(({ id, at, feel, by = [], seats, slips }) => ({
      id,
      at,
      feel,
      by: inOrder(by),
      seats: inOrder(seats.map(({ chair, member }) => `${chair}/${member}`)),
      slips: inOrder(slips.map(({ chair, card }) => `${chair ?? ""}/${card ?? ""}`)),
    }));
