/**
 * What changed for a member who was away: what they know against what concerns them now.
 * Governing rule: a difference of states, not a list of events. What was changed and changed back shows nothing;
 * what is understood comes back only when it is another again.
 */
import type { Board, SongFile } from "../../board/board.ts";
import { compareCodeUnits } from "../../document/order-key.ts";
import { type Change, changesOf } from "./changes.ts";
import { chairsIn, concerning } from "./concerns.ts";
import type { Cover, Fact, Known, Whose } from "./fact.ts";
import { GROUPS, type Group, type Item, versionOf, wordsIn } from "./item.ts";
import { bandDay, isTold, type Telling, type Told, tell } from "./item-words.ts";
import { eveningOf, tellTakes } from "./take-words.ts";

/**
 * Words a minute. Silent reading of non-fiction in English: 238 on average (Brysbaert 2019, Journal of Memory and
 * Language 109, 104047; from memory). A sixth less, for names and a shaking train.
 */
export const WORDS_A_MINUTE = 200;
/** Three weeks of a busy band are read in under three minutes. */
export const MOST_MINUTES = 3;
/** Words of the screen itself: headings, what is most worth doing, what folds. */
const OWN_WORDS = 90;

export interface ItemGroup {
  readonly group: Group;
  /** Read at once, the weightiest first. */
  readonly shown: readonly Item[];
  /** Behind one line. */
  readonly folded: readonly Item[];
}

export interface Digest {
  /** The weightiest first. Total order. */
  readonly items: readonly Item[];
  /** Without empty ones, in the order in which they are read; at most seven. */
  readonly groups: readonly ItemGroup[];
  /** Minutes that what is shown takes to read. */
  readonly minutes: number;
}

export interface DigestQuestion {
  readonly board: Board;
  readonly known: Known;
  readonly whose: Omit<Whose, "from" | "since">;
  /** Moment (ms) of the last look: when everything was understood, or the device first had the board. */
  readonly since: number;
  /** Moment (ms) it is read. */
  readonly asOf: number;
}

const finish = (key: string, told: Told, covers: readonly Cover[]): Item => ({
  ...told,
  key,
  version: versionOf(covers),
  covers,
  words: wordsIn(told),
});

const itemsOf = (changes: readonly Change[], telling: Telling): readonly Item[] => {
  const items: Item[] = [];
  const evenings = new Map<string, Change[]>();
  for (const change of changes) {
    if (isTold(change)) items.push(finish(change.key, tell(change, telling), change.covers));
    else evenings.set(eveningOf(change), [...(evenings.get(eveningOf(change)) ?? []), change]);
  }
  for (const [key, takes] of evenings)
    items.push(
      finish(
        key,
        tellTakes(
          takes.sort((a, b) => compareCodeUnits(a.id, b.id)),
          telling,
        ),
        takes.flatMap(({ covers }) => covers),
      ),
    );
  return items.sort((a, b) => b.rank - a.rank || (b.at ?? 0) - (a.at ?? 0) || compareCodeUnits(a.key, b.key));
};

/** Shows the weightiest until the reading time is used up, and folds the rest. The first is always shown. */
export const foldItems = (items: readonly Item[]): Omit<Digest, "items"> => {
  let words = OWN_WORDS;
  const shown = new Set<Item>();
  for (const item of items) {
    if (shown.size > 0 && words + item.words > WORDS_A_MINUTE * MOST_MINUTES) break;
    words += item.words;
    shown.add(item);
  }
  const groups = GROUPS.map((group) => {
    const all = items.filter((item) => item.group === group);
    return {
      group,
      shown: all.filter((item) => shown.has(item)),
      folded: all.filter((item) => !shown.has(item)),
    };
  }).filter((group) => group.shown.length + group.folded.length > 0);
  return { groups, minutes: words / WORDS_A_MINUTE };
};

/** One fact a step, so that a screen stays answerable meanwhile; the last step is the digest. */
export function* digesting({
  board,
  known,
  whose,
  since,
  asOf,
}: DigestQuestion): Generator<undefined, Digest> {
  const me: Whose = { ...whose, from: bandDay(board, since), since };
  const facts = new Map<string, Fact>();
  for (const fact of concerning(board, me, known)) {
    facts.set(fact.key, fact);
    yield;
  }
  const chairs = new Map<string, readonly string[]>();
  const seatsIn = (file: SongFile): readonly string[] => {
    const found = chairs.get(file.song.id) ?? chairsIn(board, file, me);
    chairs.set(file.song.id, found);
    return found;
  };
  const telling: Telling = { board, whose: me, chairsIn: seatsIn, today: bandDay(board, asOf), since };
  const items = itemsOf(changesOf(known, facts, board, since), telling);
  return { items, ...foldItems(items) };
}

/** The digest in one go. */
export const digestOf = (question: DigestQuestion): Digest => {
  const steps = digesting(question);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
};
