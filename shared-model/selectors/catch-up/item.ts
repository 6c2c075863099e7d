/** What a returning member reads: one line of the digest, ready for a screen. */
import type { Id } from "../../board/ids.ts";
import type { Cover } from "./fact.ts";

/** In the order in which they are read; never more than these seven. */
export const GROUPS = ["rulings", "details", "questions", "songs", "seats", "dates", "log"] as const;
export type Group = (typeof GROUPS)[number];

/** One entry before → after. Null before = it is new; null after = it is gone, or too much for a line. */
export interface Line {
  /** What changed; empty where the line speaks for itself. */
  readonly what: string;
  readonly before: string | null;
  readonly after: string | null;
}

export interface Item {
  /** The same for as long as it is about the same thing. */
  readonly key: string;
  /** Another as soon as anything it says is another; understood is a version, not a key. */
  readonly version: string;
  readonly group: Group;
  /** Higher is read first. */
  readonly rank: number;
  /** What it is about: `Marzipan Diesel · Outro b8`. */
  readonly title: string;
  /** What became of it, in a few words: `new must`, `called off`; empty where the lines say it. */
  readonly fate: string;
  readonly lines: readonly Line[];
  /** Where the document says it; else empty. */
  readonly why: string;
  readonly who: string;
  readonly note: string;
  /** When, ms; null = nobody wrote it down. */
  readonly at: number | null;
  /** Where to open it. */
  readonly song: Id | null;
  readonly chair: Id | null;
  readonly card: Id | null;
  readonly gig: Id | null;
  readonly question: Id | null;
  readonly ruling: Id | null;
  readonly take: string | null;
  /** Everything that is known once it is understood. */
  readonly covers: readonly Cover[];
  /** Words a reader meets. */
  readonly words: number;
}

const countWords = (text: string): number => text.split(/\s+/).filter((word) => word !== "").length;

export const wordsIn = (item: Pick<Item, "title" | "fate" | "lines" | "why" | "who" | "note">): number =>
  [
    item.title,
    item.fate,
    item.why,
    item.who,
    item.note,
    ...item.lines.flatMap(({ what, before, after }) => [what, before ?? "", after ?? ""]),
  ].reduce((sum, text) => sum + countWords(text), 0);

/** FNV-1a with 32 bits from two starting values (Fowler, Noll, Vo; from memory): names a version, protects nothing. */
const hash = (text: string, start: number): string => {
  let state = start;
  for (let i = 0; i < text.length; i += 1) state = Math.imul(state ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return state.toString(36);
};

/** Names what an item says of each entry it covers. */
export const versionOf = (covers: readonly Cover[]): string => {
  const text = JSON.stringify(
    covers
      .map(({ key, entry, value }) => [key, entry, value ?? null])
      .sort(([a, b], [c, d]) => (`${a}/${b}` < `${c}/${d}` ? -1 : 1)),
  );
  return hash(text, 0x811c9dc5) + hash(text, 0x9dc5811c);
};
