/** What differs between what a member knows and what concerns them now, each difference in exactly one place. */
import type { Board } from "../../board/board.ts";
import {
  type Cover,
  entriesThatDiffer,
  FACT_KINDS,
  type Fact,
  type FactKind,
  type FactValue,
  type Known,
  PRESENT,
  same,
} from "./fact.ts";

/** One fact that is not as it was known. */
export interface FactChange {
  readonly key: string;
  readonly kind: FactKind;
  readonly id: string;
  /** undefined = it was not there, or did not concern the member. */
  readonly before: FactValue | undefined;
  readonly after: FactValue | undefined;
  /** Entries that differ and are not the member's own doing. */
  readonly entries: readonly string[];
}

export type Fate = "came" | "went" | "changed";

export const fateOf = ({ before, after }: Pick<FactChange, "before" | "after">): Fate =>
  before?.[PRESENT] === undefined ? "came" : after === undefined ? "went" : "changed";

/** A change with those that came along with it. */
export interface Change extends FactChange {
  readonly fate: Fate;
  /** What needs no line of its own: the details of a part that is new to the member, say. */
  readonly followers: readonly FactChange[];
  /** Everything it stands for, as it is now. */
  readonly covers: readonly Cover[];
}

const partsOf = (key: string): readonly [FactKind, string] | null => {
  const cut = key.indexOf(":");
  const kind = FACT_KINDS.find((candidate) => candidate === key.slice(0, cut));
  return kind === undefined ? null : [kind, key.slice(cut + 1)];
};

/** Every fact that differs, own doing left out. A known fact of a kind this release does not know is left alone. */
export const factChanges = (known: Known, facts: ReadonlyMap<string, Fact>): readonly FactChange[] => {
  const changes: FactChange[] = [];
  for (const key of new Set([...known.keys(), ...facts.keys()])) {
    const [fact, before] = [facts.get(key), known.get(key)];
    const parts = partsOf(key);
    if (parts === null) continue;
    const isNew = before?.[PRESENT] === undefined;
    // Something of one's own that this device never took note of, and that is gone.
    if (fact === undefined && isNew) continue;
    const entries = entriesThatDiffer(before, fact?.value).filter((entry) => !fact?.own(entry, isNew));
    if (entries.length > 0)
      changes.push({ key, kind: parts[0], id: parts[1], before, after: fact?.value, entries });
  }
  return changes;
};

const listOf = (value: FactValue | undefined, entry: string): readonly unknown[] => {
  const list = value?.[entry];
  return Array.isArray(list) ? list : [];
};

const differing = (before: readonly unknown[], after: readonly unknown[]): readonly unknown[] => [
  ...before.filter((one) => !after.includes(one)),
  ...after.filter((one) => !before.includes(one)),
];

/** Song entries that a new ruling has said already. */
const SAID_BY_RULING: Readonly<Record<string, string>> = {
  key: "key", version: "version", "count-in": "countIn", ending: "ending", tuning: "tuning",
}; // biome-ignore format: one glance

interface Family {
  readonly change: FactChange;
  readonly followers: FactChange[];
}

/** True for a song that differs for the member only in the chairs they sit on. */
const isOnlySeats = ({ entries }: FactChange): boolean =>
  entries.every((entry) => entry === "chairs" || entry.startsWith("part."));

/** Whether a song came or went with a chair that did, and nothing else happened to it. */
const followsChair = (
  song: FactChange,
  chairs: ReadonlySet<unknown>,
  board: Board,
  since: number,
): boolean => {
  const changed = differing(listOf(song.before, "chairs"), listOf(song.after, "chairs"));
  if (changed.length === 0 || !changed.every((chair) => chairs.has(chair))) return false;
  const fate = fateOf(song);
  if (fate === "changed") return isOnlySeats(song);
  const file = board.songs.get(song.id);
  return file !== undefined && (fate === "went" || file.song.addedAt < since);
};

/** Whether something in a song came or went because the member's seats in it did. */
const followsSong = (change: FactChange, song: FactChange): boolean => {
  const fate = fateOf(change);
  if (fate === "changed") return false;
  const seats = differing(listOf(song.before, "chairs"), listOf(song.after, "chairs"));
  if (fateOf(song) !== "changed") return true;
  const value = change.after ?? change.before;
  if (change.kind === "detail") return listOf(value, "chairs").some((chair) => seats.includes(chair));
  return change.kind === "mark" && seats.some((chair) => change.id.endsWith(`:${chair}`));
};

const coversOf = ({ key, entries, after }: FactChange): readonly Cover[] =>
  entries.map((entry) => ({ key, entry, value: after?.[entry] }));

/** Takes what a new ruling says out of the song's or the detail's own change. Answers what is left of each. */
const withoutRuled = (
  changes: readonly FactChange[],
  board: Board,
): { readonly left: readonly FactChange[]; readonly ruled: ReadonlyMap<string, readonly FactChange[]> } => {
  const left = new Map(changes.map((change) => [change.key, change]));
  const ruled = new Map<string, FactChange[]>();
  for (const ruling of changes) {
    if (ruling.kind !== "ruling" || fateOf(ruling) !== "came") continue;
    const { song, card, about, text } = ruling.after ?? {};
    const at = board.songs.get(String(song))?.rulings.find(({ id }) => id === ruling.id)?.at;
    const said = (key: string, isSaid: (entry: string, value: FactValue) => boolean): void => {
      const change = left.get(key);
      if (change?.after === undefined || fateOf(change) !== "changed") return;
      const { after } = change;
      const entries = change.entries.filter((entry) => isSaid(entry, after));
      if (entries.length === 0) return;
      ruled.set(ruling.key, [...(ruled.get(ruling.key) ?? []), { ...change, entries }]);
      const others = change.entries.filter((entry) => !entries.includes(entry));
      if (others.length === 0) left.delete(key);
      else left.set(key, { ...change, entries: others });
    };
    said(
      `song:${song}`,
      (entry, value) =>
        (entry === SAID_BY_RULING[String(about)] && same(value[entry], text)) ||
        (entry === `again.${about}` && value[entry] === at),
    );
    if (card !== undefined)
      said(`detail:${card}`, (entry, value) => entry === "since" && value[entry] === at);
  }
  return { left: [...left.values()], ruled };
};

/**
 * Every difference, in exactly one change: what a ruling says, the songs of a new chair and the details of a new part
 * stand with what brought them.
 * @param since moment (ms) of the member's last look
 */
export const changesOf = (
  known: Known,
  facts: ReadonlyMap<string, Fact>,
  board: Board,
  since: number,
): readonly Change[] => {
  const { left, ruled } = withoutRuled(factChanges(known, facts), board);
  const families = new Map<string, Family>(
    left.map((change) => [change.key, { change, followers: [...(ruled.get(change.key) ?? [])] }]),
  );
  const chairs = new Set<unknown>(
    left.filter((change) => change.kind === "chair" && fateOf(change) !== "changed").map(({ id }) => id),
  );
  /** What a change stands with; itself where it stands alone. */
  const headOf = (change: FactChange): string => {
    if (change.kind === "song") {
      if (!followsChair(change, chairs, board, since)) return change.key;
      const [chair] = differing(listOf(change.before, "chairs"), listOf(change.after, "chairs"));
      return `chair:${chair}`;
    }
    // A ruling or a question that came is no mere follower: it is to be read, and somebody waits.
    const isToRead = fateOf(change) === "came" && (change.kind === "question" || change.kind === "ruling");
    if (fateOf(change) === "changed") return change.key;
    const value = change.after ?? change.before;
    const song = families.get(`song:${value?.song}`)?.change;
    const waits = isToRead && change.kind === "question";
    if (song !== undefined && !waits && followsSong(change, song)) return headOf(song);
    const card = change.kind === "mark" ? change.id : value?.card;
    const detail = change.kind === "detail" ? undefined : families.get(`detail:${card}`)?.change;
    return detail === undefined || isToRead || fateOf(detail) === "changed" ? change.key : headOf(detail);
  };
  for (const change of left) {
    const head = headOf(change);
    if (head !== change.key) families.get(head)?.followers.push(change, ...(ruled.get(change.key) ?? []));
  }
  return left
    .filter((change) => headOf(change) === change.key)
    .map((change) => {
      const followers = families.get(change.key)?.followers ?? [];
      return {
        ...change,
        fate: fateOf(change),
        followers,
        covers: [change, ...followers].flatMap(coversOf),
      };
    });
};
